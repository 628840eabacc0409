"""Many cases at once: in order, each for itself, and resumed with nothing lost or doubled."""

import json
import os
import random
import shutil
import subprocess
import sys
import time
from collections.abc import Iterable, Iterator
from functools import partial
from pathlib import Path

import pytest

from recommender.account.sweep_text import summary_lines
from recommender.advice import advise
from recommender.bench.load import load_case
from recommender.ground.flaw import Flawed
from recommender.reading.yaml_reader import read_text
from recommender.records.record import record_of
from recommender.records.store import keep
from recommender.rulebook.folders import shipped_folder
from recommender.trials.dated_books import DatedBooks
from recommender.trials.many_cases import judged_lines, sweep_into
from recommender.trials.many_items import Where, count_items, places, read_item
from recommender.trials.many_lines import FORMAT, START, line_of
from recommender.trials.many_summary import MOST_NAMED, Summary

ROOT = Path(__file__).resolve().parents[2]


def as_line(text: str, **more: object) -> str:
    """Return a case as it stands on a line of NDJSON."""
    return json.dumps({**read_text(text, "x.yaml").data, **more}, default=str)


@pytest.fixture(scope="module")
def books() -> DatedBooks:
    return DatedBooks(None)


@pytest.fixture
def mixed(tmp_path: Path, cracked: str, direct_bearings: str) -> Path:
    """Return a file of cracked frames, one with a bad key, one that is no JSON, and one measured in full."""
    path = tmp_path / "frames.ndjson"
    lines = [as_line(cracked, case=f"hill-{count}") for count in range(24)]
    lines[3] = lines[3].replace("looked_at", "loked_at")
    lines[7] = "not json"
    lines[11] = as_line(direct_bearings)
    lines[15] = as_line(cracked, title="\u00e4 \U0001f6b2 </script>")
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return path


def told(lines: Iterable[str]) -> list[dict[str, object]]:
    return [json.loads(line) for line in lines]


def test_a_case_says_the_same_on_a_line_and_in_a_file(
    books: DatedBooks, tmp_path: Path, direct_bearings: str
) -> None:
    (tmp_path / "case.yaml").write_text(direct_bearings, encoding="utf-8")
    (tmp_path / "case.ndjson").write_text(as_line(direct_bearings), encoding="utf-8")
    one, two = told(judged_lines(places([tmp_path / "case.yaml", tmp_path / "case.ndjson"]), books))
    assert one["frame"] == {"verdict": "proceed", "reasons": one["frame"]["reasons"]}  # type: ignore[index]
    differing = {key for key in one if one[key] != two[key]}
    assert differing == {"source", "text"}
    assert (one["format"], one["rules"]) == (FORMAT, books.stamp)
    assert one["sides"]["drive"]["remedy"] == "press_as_is"  # type: ignore[index]


def test_one_bad_case_never_stops_the_rest(mixed: Path, tmp_path: Path, books: DatedBooks) -> None:
    missing = tmp_path / "nowhere.yaml"
    found = told(judged_lines(places([missing, mixed]), books))
    assert [each["source"] for each in found] == [str(missing), *(f"{mixed}:{line}" for line in range(1, 25))]
    bad = [count for count, each in enumerate(found) if "flaws" in each]
    assert bad == [0, 4, 8]
    assert "no such file" in found[0]["flaws"][0]["message"]  # type: ignore[index]
    assert any(f"{mixed}:4:" in each["place"] for each in found[4]["flaws"])  # type: ignore[attr-defined]
    assert found[4]["signs"] == ["crack"]
    assert found[8]["flaws"][0]["place"] == f"{mixed}:8:1"  # type: ignore[index]


def test_the_place_of_a_flaw_points_into_the_line(tmp_path: Path, cracked: str, books: DatedBooks) -> None:
    path = tmp_path / "one.ndjson"
    line = as_line(cracked).replace("lamp", "lmap")
    path.write_text("\n\n" + line + "\n", encoding="utf-8")
    (only,) = told(judged_lines(places([path]), books))
    assert only["source"] == f"{path}:3"
    found = [each["place"] for each in only["flaws"]]  # type: ignore[attr-defined]
    column = line.index('"lmap"') + 1
    assert f"{path}:3:{column}" in found


@pytest.mark.parametrize("beside", [True, False])
def test_a_second_round_that_leaves_the_crack_out_is_found_where_the_record_lies_beside_it(
    books: DatedBooks, tmp_path: Path, cracked: str, direct_bearings: str, beside: bool
) -> None:
    (tmp_path / "first.yaml").write_text(cracked, encoding="utf-8")
    loaded = load_case(tmp_path / "first.yaml")
    book = books.on(loaded.case.received)
    earlier = keep(record_of(loaded, advise(loaded, book), book), tmp_path if beside else tmp_path / "elsewhere")
    (tmp_path / "again.ndjson").write_text("\n" + as_line(direct_bearings, follows=earlier.stem), encoding="utf-8")
    (again,) = told(judged_lines(places([tmp_path / "again.ndjson"]), books))
    if not beside:
        assert again["frame"]["verdict"] == "proceed"  # type: ignore[index]
        return
    assert again["signs"] == ["crack"]
    (flaw,) = again["flaws"]  # type: ignore[misc]
    assert flaw["check"] == "case.damage_left_out"
    assert flaw["place"].startswith(f"{tmp_path / 'again.ndjson'}:2")


@pytest.mark.parametrize(
    ("line", "said"),
    [(b"[1]", "key: value"), (b'{"case": "x", "case": "y"}', "second time"), (b"\xff", "not UTF-8"),
     (b'{"a":' * 20_000, "not JSON"), (b"{" + b" " * 1_000_001 + b"}", "larger than"), (b"{}", "is missing"),
     (b'{"case": "a\\u0000b"}', "nobody can see")],
    ids=["list", "twice", "bytes", "deep", "long", "empty", "hidden"],
)  # fmt: skip
def test_bad_lines(tmp_path: Path, cracked: str, line: bytes, said: str, books: DatedBooks) -> None:
    path = tmp_path / "lines.ndjson"
    path.write_bytes(line + b"\n" + as_line(cracked).encode() + b"\r\n")
    bad, good = told(judged_lines(places([path]), books))
    assert said in " ".join(each["message"] for each in bad["flaws"])  # type: ignore[attr-defined]
    assert good["frame"]["verdict"] == "refuse"  # type: ignore[index]
    assert good["source"] == f"{path}:2"


def test_a_fault_of_the_tool_is_one_line_too(
    monkeypatch: pytest.MonkeyPatch, mixed: Path, books: DatedBooks
) -> None:
    def broken(*_: object) -> None:
        raise ZeroDivisionError("division by zero")

    monkeypatch.setattr("recommender.trials.many_lines.advise", broken)
    found = json.loads(line_of(read_item(next(places([mixed]))), books))
    assert found["fault"] == "ZeroDivisionError: division by zero"
    assert found["signs"] == ["crack"]
    summary = Summary()
    summary.count(json.dumps(found))
    assert (summary.not_judged, summary.signs) == (1, [(f"{mixed}:1", ("crack",))])


def test_cases_are_counted_as_they_are_taken(mixed: Path, tmp_path: Path, cracked: str) -> None:
    folder = tmp_path / "folder"
    folder.mkdir()
    (folder / "one.yaml").write_text(cracked, encoding="utf-8")
    mixed.write_text(mixed.read_text(encoding="utf-8") + "\n\n", encoding="utf-8")
    paths = [mixed, folder, folder / "one.yaml", tmp_path / "missing.ndjson"]
    assert count_items(paths) == len(list(places(paths))) == 24 + 3


def test_folders_are_searched_in_order(tmp_path: Path, cracked: str) -> None:
    for name in ("b/two.yaml", "a/one.yaml", "b/a.yaml"):
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(cracked, encoding="utf-8")
    assert [str(each.path) for each in places([tmp_path])] == [
        str(tmp_path / name) for name in ("a/one.yaml", "b/a.yaml", "b/two.yaml")
    ]


def test_cases_are_taken_one_by_one(mixed: Path, books: DatedBooks) -> None:
    lines = judged_lines(places([mixed]), books)
    assert json.loads(next(lines))["case"] == "hill-0"
    endless = (Where(Path("x"), count) for count in iter(int, 1))
    assert "flaws" in json.loads(next(judged_lines(endless, books)))


@pytest.mark.parametrize("jobs", [2, 3])
def test_the_same_bytes_for_any_number_of_processes(mixed: Path, jobs: int, books: DatedBooks) -> None:
    assert list(judged_lines(places([mixed]), books, jobs=jobs)) == list(judged_lines(places([mixed]), books))


def test_many_processes_do_not_read_ahead_without_end(mixed: Path, cracked: str, books: DatedBooks) -> None:
    taken = 0

    def counted() -> Iterator[Where]:
        nonlocal taken
        for count in range(10_000):
            taken += 1
            yield Where(Path("x"), count)

    lines = judged_lines(counted(), books, jobs=2)
    next(lines)
    lines.close()  # type: ignore[attr-defined]
    assert taken <= 40


def test_rules_edited_meanwhile_end_the_sweep(mixed: Path, books: DatedBooks, tmp_path: Path) -> None:
    rules = shutil.copytree(shipped_folder(), tmp_path / "rules")
    started = DatedBooks(None, rules)
    assert started.stamp == books.stamp
    path = rules / "judgement" / "bearing.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("warns of it", "warns"), encoding="utf-8")
    with pytest.raises(Flawed, match="edited while the sweep"):
        list(judged_lines(places([mixed]), started, jobs=2))
    path.write_text("[", encoding="utf-8")
    with pytest.raises(Flawed, match="edited while the sweep"):
        list(judged_lines(places([mixed]), started, jobs=2))


def test_the_stamp_changes_with_the_rules_and_acts(tmp_path: Path, books: DatedBooks) -> None:
    act = (
        "house:\n  - {change: grip.gaps_early, to: 300 N, was: 250 N, reason: returns, by: lead, "
        "dated: 2026-01-05, review_by: 2027-01-05}\n"
    )
    (tmp_path / "acts.yaml").write_text(act, encoding="utf-8")
    housed = DatedBooks(tmp_path)
    (tmp_path / "acts.yaml").write_text(act.replace("2027-01-05", "2027-01-06"), encoding="utf-8")
    assert len({books.stamp, housed.stamp, DatedBooks(tmp_path).stamp}) == 3
    received = load_case(ROOT / "cases" / "proceed" / "lane-2041.yaml").case.received
    assert housed.on(received).limits["grip.gaps_early"].value == 300
    assert housed.on(received) is housed.on(received)
    assert books.on(received) is books.undated


def swept(path: Path, cases: Path, books: DatedBooks, stamp: str = "") -> Summary:
    return sweep_into(path, places([cases]), partial(judged_lines, books=books), stamp or books.stamp)


def test_a_finished_output_is_left_as_it_is(mixed: Path, tmp_path: Path, books: DatedBooks) -> None:
    out = tmp_path / "out.ndjson"
    first = swept(out, mixed, books)
    content = out.read_bytes()
    again = swept(out, mixed, books)
    assert out.read_bytes() == content
    assert vars(again) == vars(first)
    assert content.decode().splitlines() == list(judged_lines(places([mixed]), books))


def test_continued_after_any_cut(mixed: Path, tmp_path: Path, books: DatedBooks) -> None:
    out = tmp_path / "out.ndjson"
    whole = vars(swept(out, mixed, books))
    content = out.read_bytes()
    cuts = [0, 1, 10, 31, content.index(b"\n"), content.index(b"\n") + 1, len(content) - 1]
    for cut in [*cuts, *(random.Random(5).randrange(len(content)) for _ in range(6))]:
        out.write_bytes(content[:cut])
        assert vars(swept(out, mixed, books)) == whole
        assert out.read_bytes() == content


@pytest.mark.parametrize("content", [b"case: lane-2041\n", b"x", b'{"format":"borewright/advice/1"}\n', b"\n"])
def test_no_other_file_is_touched(mixed: Path, tmp_path: Path, books: DatedBooks, content: bytes) -> None:
    out = tmp_path / "notes.txt"
    out.write_bytes(content)
    with pytest.raises(Flawed, match="not written by a sweep"):
        swept(out, mixed, books)
    assert out.read_bytes() == content


def test_an_output_of_other_cases_or_rules_is_not_continued(
    mixed: Path, tmp_path: Path, books: DatedBooks
) -> None:
    out = tmp_path / "out.ndjson"
    swept(out, mixed, books)
    content = out.read_bytes()
    with pytest.raises(Flawed, match="other rules"):
        swept(out, mixed, books, "another")
    lines = mixed.read_text(encoding="utf-8").splitlines(keepends=True)
    mixed.write_text("".join(lines[:5]), encoding="utf-8")
    with pytest.raises(Flawed, match="fewer cases"):
        swept(out, mixed, books)
    mixed.write_text("".join([lines[1], lines[0], *lines[2:]]), encoding="utf-8")
    with pytest.raises(Flawed, match="another case"):
        swept(out, mixed, books)
    assert out.read_bytes() == content


@pytest.mark.skipif(sys.platform == "win32", reason="files are not held alone there")
def test_two_sweeps_never_write_one_file(mixed: Path, tmp_path: Path, books: DatedBooks) -> None:
    out = tmp_path / "out.ndjson"

    def judge(cases: Iterable[Where]) -> Iterator[str]:
        with pytest.raises(Flawed, match="another sweep"):
            swept(out, mixed, books)
        return judged_lines(cases, books)

    sweep_into(out, places([mixed]), judge, books.stamp)
    assert len(out.read_text(encoding="utf-8").splitlines()) == 24


def test_an_output_that_cannot_be_written(mixed: Path, tmp_path: Path, books: DatedBooks) -> None:
    with pytest.raises(Flawed, match="cannot be written"):
        swept(tmp_path / "no" / "such" / "folder.ndjson", mixed, books)
    with pytest.raises(Flawed, match="cannot be written"):
        swept(tmp_path, mixed, books)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with names there")
def test_devices_and_pipes_are_neither_written_nor_waited_for(
    mixed: Path, tmp_path: Path, books: DatedBooks
) -> None:
    os.mkfifo(tmp_path / "pipe.ndjson")
    (tmp_path / "zero.ndjson").symlink_to("/dev/zero")
    for path in (tmp_path / "pipe.ndjson", tmp_path / "zero.ndjson", Path("/dev/null"), Path("/dev/full")):
        with pytest.raises(Flawed, match=r"cannot be written|a device or pipe"):
            swept(path, mixed, books)
    found = told(judged_lines(places([tmp_path / "pipe.ndjson", tmp_path / "zero.ndjson"]), books))
    assert ["a device or pipe" in each["flaws"][0]["message"] for each in found] == [True, True]  # type: ignore[index]


def test_an_output_that_is_one_endless_line_is_not_continued(mixed: Path, tmp_path: Path, books: DatedBooks) -> None:
    out = tmp_path / "out.ndjson"
    with out.open("wb") as opened:
        opened.write(START.encode("ascii"))
        opened.truncate(40_000_000)
    with pytest.raises(Flawed, match="line 1 was not written by a sweep"):
        swept(out, mixed, books)
    out.write_bytes(START.encode("ascii") + b'"x":' + b"[" * 100_000 + b"\n")
    with pytest.raises(Flawed, match="line 1 is not whole"):
        swept(out, mixed, books)


def test_the_summary_counts_cases(mixed: Path, books: DatedBooks, tmp_path: Path) -> None:
    summary = swept(tmp_path / "out.ndjson", mixed, books)
    assert (summary.cases, summary.not_judged) == (24, 2)
    assert summary.verdicts == {"refuse": 21, "proceed": 1}
    assert summary.reasons.most_common(1)[0][1] == 21
    text = " ".join(line.text.strip() for line in summary_lines(summary))
    assert "24 cases: 22 judged, 2 could not be judged" in text
    assert "STOP RIDING" in text
    assert f"{mixed}:4: crack" in text


def test_the_summary_stays_small() -> None:
    summary = Summary()
    for count in range(5_000):
        summary.count(json.dumps({"source": f"x:{count}", "signs": ["crack"], "flaws": []}))
    assert summary.with_signs == 5_000
    assert len(summary.signs) == MOST_NAMED
    assert "and 4980 more cases" in "\n".join(line.text for line in summary_lines(summary))


def command(cases: Path, out: Path, jobs: int) -> list[str]:
    return [sys.executable, "-m", "recommender", "sweep", str(cases), "--jobs", str(jobs), "--out", str(out)]


ENVIRONMENT = {**os.environ, "PYTHONPATH": str(ROOT)}


@pytest.mark.skipif(sys.platform == "win32", reason="no such signal there")
@pytest.mark.parametrize("jobs", [1, 2])
def test_killed_at_random_and_resumed_the_file_is_the_same(
    tmp_path: Path, cracked: str, direct_bearings: str, jobs: int
) -> None:
    cases, out, whole = (tmp_path / name for name in ("cases.ndjson", "out.ndjson", "whole.ndjson"))
    lines = [as_line(cracked, case=f"hill-{count}") for count in range(200)]
    lines[50], lines[150] = as_line(direct_bearings), lines[150][:-9]
    cases.write_text("\n".join(lines) + "\n", encoding="utf-8")
    moments, cut = random.Random(11), 0
    for _ in range(5):
        before = out.stat().st_size if out.exists() else 0
        run = subprocess.Popen(command(cases, out, jobs), env=ENVIRONMENT, stderr=subprocess.DEVNULL)
        while run.poll() is None and (out.stat().st_size if out.exists() else 0) <= before:
            time.sleep(0.005)
        time.sleep(moments.uniform(0.0, 0.3))
        cut += run.poll() is None
        run.kill()
        run.wait()
    assert cut >= 2
    for path in (out, whole):
        done = subprocess.run(command(cases, path, jobs), env=ENVIRONMENT, capture_output=True, check=False)
        assert done.returncode == 1
        assert b"200 cases: 199 judged, 1 could not be judged" in done.stderr
    assert out.read_bytes() == whole.read_bytes()


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="processes are not listed there")
def test_workers_end_with_the_process_that_started_them(tmp_path: Path, cracked: str) -> None:
    cases, out = tmp_path / "cases.ndjson", tmp_path / "out.ndjson"
    cases.write_text("\n".join(as_line(cracked, case=f"hill-{count}") for count in range(2_000)), encoding="utf-8")
    run = subprocess.Popen(command(cases, out, 2), env=ENVIRONMENT, stderr=subprocess.DEVNULL)
    while run.poll() is None and not (out.exists() and out.stat().st_size):
        time.sleep(0.01)
    workers = [each.name for each in Path("/proc").glob("[0-9]*") if _stat(each.name)[1:2] == [str(run.pid)]]
    assert len(workers) >= 2
    run.kill()
    run.wait()
    until = time.monotonic() + 20
    while (left := [each for each in workers if _runs(each)]) and time.monotonic() < until:
        time.sleep(0.05)
    assert left == []


def _stat(process: str) -> list[str]:
    """Return state, parent and more of a process; nothing when there is none."""
    try:
        return Path(f"/proc/{process}/stat").read_text(encoding="utf-8", errors="replace").rpartition(") ")[2].split()
    except OSError:
        return []


def _runs(process: str) -> bool:
    return _stat(process)[:1] not in ([], ["Z"])
