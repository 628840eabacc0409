"""Keeping, replaying, comparing and sweeping on the command line: exit codes, streams and words."""

import json
import re
from pathlib import Path
from typing import NamedTuple

import pytest
from typer.testing import CliRunner

from recommender.cli.app import app
from recommender.ground.flaw import Flawed
from recommender.records.record import canonical, id_of

COMMANDS = (["replay"], ["sweep"], ["records", "show"], ["records", "compare"], ["records", "done"])
ACT = (
    "house:\n  - {change: grip.gaps_early, to: 450 N, was: 250 N, reason: returns, by: lead, "
    "dated: 2026-01-05, review_by: 2027-01-05}\n"
)


class Said(NamedTuple):
    """What a command said, flaws that the guard around every command tells included."""

    exit_code: int
    stdout: str
    stderr: str


def call(*arguments: object) -> Said:
    result = CliRunner().invoke(app, [str(each) for each in arguments])
    if isinstance(result.exception, Flawed):
        return Said(2, result.stdout, f"{result.stderr}{result.exception}")
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return Said(result.exit_code, result.stdout, result.stderr)


@pytest.fixture
def cracked(case_path: Path) -> Path:
    return case_path.parents[1] / "refuse" / "hill-2036.yaml"


@pytest.fixture
def bearings(case_path: Path) -> Path:
    return case_path.parents[1] / "proceed" / "bridge-2058.yaml"


def kept(case: Path, folder: Path) -> Path:
    result = call("advise", case, "--keep", folder)
    assert result.exit_code == 0
    said = re.search(r"kept: (.*)", result.stderr)
    assert said is not None
    return Path(said[1])


@pytest.mark.parametrize("command", COMMANDS, ids=" ".join)
def test_help_gives_an_example(command: list[str]) -> None:
    result = call(*command, "--help")
    assert result.exit_code == 0
    assert f"Example: borewright {' '.join(command)}" in " ".join(result.stdout.split())


def test_kept_beside_the_answer_which_stays_the_same(cracked: Path, tmp_path: Path) -> None:
    plain, keeping = call("advise", cracked), call("advise", cracked, "--keep", tmp_path)
    assert keeping.stdout == plain.stdout
    (path,) = tmp_path.iterdir()
    assert keeping.stderr == f"kept: {path}\n"
    assert re.fullmatch(r"hill-2036-[0-9a-f]{12}\.json", path.name)
    before = path.read_bytes()
    assert call("advise", cracked, "--keep", tmp_path).exit_code == 0
    assert path.read_bytes() == before


def test_a_record_of_a_refusal_for_damage_says_not_to_ride(cracked: Path, bearings: Path, tmp_path: Path) -> None:
    assert "STOP RIDING" in call("records", "show", kept(cracked, tmp_path)).stdout
    assert "STOP RIDING" not in call("records", "show", kept(bearings, tmp_path)).stdout


@pytest.mark.parametrize("beside", [True, False])
def test_a_second_round_cannot_leave_the_crack_out(cracked: Path, bearings: Path, tmp_path: Path, beside: bool) -> None:
    earlier = kept(cracked, tmp_path / "kept")
    text = bearings.read_text("utf-8").split("\n", 1)
    again = (tmp_path / "kept" if beside else tmp_path) / "again.yaml"
    again.write_text(f"{text[0]}\nfollows: {earlier.stem}\n{text[1]}", encoding="utf-8")
    asked = [] if beside else ["--keep", tmp_path / "kept"]
    found = call("advise", again, *asked)
    assert found.exit_code == 2
    assert "STOP RIDING" in found.stdout
    assert "names no sign of it" in " ".join(found.stderr.split())
    assert len(list((tmp_path / "kept").glob("*.json"))) == 1
    asked = [] if beside else ["--kept", tmp_path / "kept"]
    assert call("why", again, *asked).exit_code == 2


def test_an_answer_that_cannot_be_kept_is_still_given(cracked: Path, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    result = call("advise", cracked, "--keep", tmp_path / "file")
    assert result.exit_code == 2
    assert "STOP RIDING" in result.stdout
    assert "no record of it was kept" in result.stderr


def test_why_reads_a_record_as_it_reads_the_case(bearings: Path, tmp_path: Path) -> None:
    case = tmp_path / "bridge-2058.yaml"
    case.write_bytes(bearings.read_bytes())
    from_case, from_record = call("why", case), call("why", kept(case, tmp_path / "kept"))
    assert from_record.exit_code == 0
    assert from_record.stdout.split() == from_case.stdout.replace(f"{tmp_path}/", "").split()


def test_why_says_what_a_second_round_settled(case_text: str, tmp_path: Path) -> None:
    first = tmp_path / "first.yaml"
    first.write_text(re.sub(r"\n      - \{instrument: two, .*", "", case_text), encoding="utf-8")
    earlier = kept(first, tmp_path / "kept")
    second = tmp_path / "second.yaml"
    second.write_text(case_text.replace("identity:", f"follows: {earlier.stem}\nidentity:", 1), encoding="utf-8")
    result = call("why", second, "--kept", tmp_path / "kept")
    assert result.exit_code == 0
    assert f"SINCE {earlier.stem}" in result.stdout
    assert "frame: measure_again -> proceed" in result.stdout
    assert "No longer open" in result.stdout
    lost = call("why", second, "--kept", tmp_path)
    assert lost.exit_code == 0
    assert "SINCE" not in lost.stdout
    assert f"follows `{earlier.stem}`, which is not kept" in lost.stderr
    compared = call("records", "compare", earlier, kept(second, tmp_path / "kept"))
    assert compared.exit_code == 0
    assert "are they of one frame" not in compared.stdout
    assert "instrument: two" in compared.stdout


def test_replay_says_that_a_record_stands(cracked: Path, tmp_path: Path) -> None:
    path = kept(cracked, tmp_path)
    result = call("replay", path)
    assert (result.exit_code, result.stderr) == (0, "")
    assert f"{path.stem}: stands" in result.stdout
    assert "1 record: 1 stand, 0 do not" in result.stdout


def test_replay_names_what_changed(bearings: Path, cracked: Path, tmp_path: Path) -> None:
    house = tmp_path / "house"
    house.mkdir()
    (house / "acts.yaml").write_text(ACT, encoding="utf-8")
    fallen, standing = kept(bearings, tmp_path / "kept"), kept(cracked, tmp_path / "kept")
    result = call("replay", tmp_path / "kept", "--house", house)
    assert result.exit_code == 1
    assert f"{fallen.stem}: DOES NOT STAND" in result.stdout
    assert f"{standing.stem}: stands (though the rules changed)" in " ".join(result.stdout.split())
    assert "The case is untouched." in result.stdout
    assert "grip.gaps_early: 250 N -> 450 N" in result.stdout
    assert "rule grip.gaps-early on" in result.stdout
    assert "2 records: 1 stand, 1 do not" in result.stdout
    lines = call("replay", tmp_path / "kept", "--house", house, "--format", "json").stdout.splitlines()
    told = [json.loads(line) for line in lines]
    assert [(each["record"], each["stands"]) for each in told] == [(fallen.stem, False), (standing.stem, True)]
    assert told[0]["limits"] == [{"where": "grip.gaps_early", "before": "250 N", "after": "450 N"}]


def test_replay_cannot_judge_a_changed_record(cracked: Path, bearings: Path, tmp_path: Path) -> None:
    path = kept(cracked, tmp_path)
    other = kept(bearings, tmp_path)
    path.write_bytes(path.read_bytes().replace(b'"refuse"', b'"proceed"'))
    result = call("replay", path, other)
    assert result.exit_code == 2
    assert "not what was kept" in result.stderr
    assert f"{other.stem}: stands" in result.stdout
    assert call("why", path).exit_code == 2
    assert call("replay", tmp_path / "hill-2036-000000000000.json").exit_code == 2


def test_replay_of_nothing_is_no_success(tmp_path: Path) -> None:
    assert call("replay", tmp_path).exit_code == 2


def test_a_case_that_is_refused_today_does_not_stand(cracked: Path, tmp_path: Path) -> None:
    content = json.loads(kept(cracked, tmp_path).read_text(encoding="utf-8"))
    text = canonical({**content, "case_text": content["case_text"].replace("sides:", "sidse:")})
    path = tmp_path / f"{id_of('hill-2036', text.encode())}.json"
    path.write_text(text, encoding="utf-8")
    result = call("replay", path)
    assert result.exit_code == 1
    assert "refused at reading today" in result.stdout
    assert "sidse" in result.stdout


def test_compare_says_when_nothing_differs_and_when_frames_do(cracked: Path, bearings: Path, tmp_path: Path) -> None:
    one, two = kept(cracked, tmp_path), kept(bearings, tmp_path)
    assert "Nothing differs." in call("records", "compare", one, one).stdout
    assert "are they of one frame?" in call("records", "compare", one, two).stdout


def test_what_was_done_is_entered_and_shown(cracked: Path, tmp_path: Path) -> None:
    path = kept(cracked, tmp_path)
    before = path.read_bytes()
    entry = ("records", "done", path, "--by", "bench 1", "--date", "2026-05-06", "--what", "sent to its maker")
    assert call(*entry).exit_code == 0
    assert call(*entry, "--drive", "press_as_is", "--reason", "asked for in writing").exit_code == 0
    shown = " ".join(call("records", "show", path).stdout.split())
    assert "2026-05-06, bench 1: sent to its maker." in shown
    assert "Other than decided (drive): asked for in writing" in shown
    assert path.read_bytes() == before


@pytest.mark.parametrize(
    ("more", "said"),
    [(("--drive", "press_as_is"), "a reason must be given"), (("--drive", "glue"), "is no remedy"),
     (("--date", "6.5.2026"), "not a date"), (("--date", "2026-01-01"), "before the frame was received")],
)  # fmt: skip
def test_what_cannot_be_entered(cracked: Path, tmp_path: Path, more: tuple[str, ...], said: str) -> None:
    path = kept(cracked, tmp_path)
    entry = ("records", "done", path, "--by", "bench 1", "--date", "2026-05-06", "--what", "pressed")
    result = call(*entry, *more)
    assert result.exit_code == 2
    assert said in " ".join(result.stderr.split())
    assert [each.name for each in tmp_path.iterdir()] == [path.name]


def test_sweep_prints_a_line_a_case_and_a_summary(cracked: Path, tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_bytes(cracked.read_bytes())
    (tmp_path / "b.yaml").write_text("case: x\n", encoding="utf-8")
    result = call("sweep", tmp_path, "--jobs", 1)
    assert result.exit_code == 1
    one, two = map(json.loads, result.stdout.splitlines())
    assert (one["case"], one["frame"]["verdict"]) == ("hill-2036", "refuse")
    assert two["flaws"]
    assert "2 cases: 1 judged, 1 could not be judged" in result.stderr
    (tmp_path / "b.yaml").unlink()
    assert call("sweep", tmp_path).exit_code == 0


def test_sweep_into_a_file_prints_nothing_and_is_continued(cracked: Path, tmp_path: Path) -> None:
    out = tmp_path / "out.ndjson"
    result = call("sweep", cracked, cracked, "--out", out)
    assert (result.exit_code, result.stdout) == (0, "")
    content = out.read_bytes()
    out.write_bytes(content[:-30])
    assert call("sweep", cracked, cracked, "--out", out).exit_code == 0
    assert out.read_bytes() == content
    assert content.decode().splitlines() == call("sweep", cracked, cracked).stdout.splitlines()
