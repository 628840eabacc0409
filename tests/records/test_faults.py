"""Whatever goes wrong while a record is written, there is none or the whole one, and trying again succeeds.

A fault is put before the first, the second, the third ... of all calls that leave Python for the system, until one run
comes through without meeting it: the process ends there at once, or the call fails as on a full, broken or closed disk.
"""

import errno
import json
import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path
from types import FrameType
from typing import Any

import pytest

from recommender.ground.flaw import Flawed
from recommender.reading.files import write_atomically
from recommender.records.compact import compact, expanded, with_nodes
from recommender.records.decided import read_decided
from recommender.records.disposition import Done, disposition_path, dispositions, enter
from recommender.records.record import Record, canonical, id_of, stored
from recommender.records.store import keep, read_record, record_files
from recommender.rulebook.load import load
from recommender.trials.replay import replay

ROOT = Path(__file__).resolve().parents[2]
pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="a process cannot be copied there")

SYSTEM = frozenset({
    "open", "write", "flush", "fsync", "replace", "rename", "close", "mkdir", "unlink", "stat", "lstat", "readlink",
    "read", "flock", "fileno", "scandir", "__exit__",
})  # fmt: skip
FAULTS = {"full": errno.ENOSPC, "broken": errno.EIO, "closed": errno.EACCES, "read only": errno.EROFS}
CAME_THROUGH, MET = 0, 7
MOST, LAST = 2_000, 200
Hook = Callable[[], None]


def calls(do: Callable[[], object], at: int, hook: Hook, only_system: bool) -> bool:
    """Do something with a hook called before its `at`-th call into C; return whether it came so far."""
    return counted(do, at, hook, only_system) >= at


def counted(do: Callable[[], object], at: int, hook: Hook, only_system: bool) -> int:
    """Do something with a hook called before its `at`-th call into C; return how many calls there were.

    Counted are calls into the system alone, or all from the first of these on.
    """
    count = 0

    def watched(_frame: FrameType, event: str, called: Any) -> None:
        nonlocal count
        if event == "c_call" and (getattr(called, "__name__", "") in SYSTEM or (count and not only_system)):
            count += 1
            if count == at:
                hook()

    sys.setprofile(watched)
    try:
        do()
    finally:
        sys.setprofile(None)
    return count


def ended_at(do: Callable[[], object], at: int) -> bool:
    """Do something in a copy of this process that ends before its `at`-th call into C; return whether it did."""
    child = os.fork()
    if child == 0:
        try:
            calls(do, at, lambda: os._exit(MET), only_system=False)
        finally:
            os._exit(CAME_THROUGH)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == MET


def every_moment(do: Callable[[Path], object], folder: Path) -> Iterator[Path]:
    """Yield a fresh folder for every call at which a process ended in it, last the one in which it came through."""
    for at in range(1, MOST):
        here = folder / str(at)
        here.mkdir()
        met = ended_at(lambda here=here: do(here), at)
        yield here
        if not met:
            assert at > 20, "the fault was never met"
            return
    raise AssertionError("never came through")


def failing(code: int) -> Hook:
    def fail() -> None:
        raise OSError(code, os.strerror(code))

    return fail


def left(folder: Path) -> set[str]:
    """Return what lies in a folder besides the unfinished file of a process that ended."""
    return {each.name for each in folder.iterdir() if not each.name.endswith(".part")} if folder.exists() else set()


def test_ended_between_any_two_calls_there_is_no_record_or_the_whole_one(short: Record, tmp_path: Path) -> None:
    whole = 0
    for here in every_moment(lambda each: keep(short, each / "kept"), tmp_path):
        assert left(here / "kept") <= {f"{short.id}.json"}
        for path in record_files([here / "kept"] if (here / "kept").exists() else []):
            assert read_record(path) == short
            whole += 1
        assert read_record(keep(short, here / "kept")) == short
        assert left(here / "kept") == {f"{short.id}.json"}
    assert whole > 1


@pytest.mark.parametrize("fault", FAULTS)
def test_when_any_call_fails_there_is_no_record_or_the_whole_one(short: Record, tmp_path: Path, fault: str) -> None:
    refused = 0
    for at in range(1, MOST):
        here = tmp_path / str(at)
        try:
            met = calls(lambda here=here: keep(short, here), at, failing(FAULTS[fault]), only_system=True)
        except Flawed:
            met, refused = True, refused + 1
        assert left(here) <= {f"{short.id}.json"}
        for path in record_files([here] if here.exists() else []):
            assert read_record(path) == short
        assert read_record(keep(short, here)) == short
        if not met:
            break
    assert refused >= 5


@pytest.mark.parametrize("fault", ["full", "broken"])
def test_when_any_call_fails_the_old_file_stays_or_the_new_one_is_whole(tmp_path: Path, fault: str) -> None:
    path, told = tmp_path / "page.html", set()
    for at in range(1, MOST):
        path.write_text("old", encoding="utf-8")
        try:
            if not calls(lambda: write_atomically(path, "new" * 5_000), at, failing(FAULTS[fault]), only_system=True):
                break
        except Flawed:
            told.add(at)
        assert path.read_text(encoding="utf-8") in ("old", "new" * 5_000)
    assert len(told) >= 5
    assert path.read_text(encoding="utf-8") == "new" * 5_000


def test_the_content_reaches_the_disk_before_its_name_does(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    done: list[str] = []
    for name in ("fsync", "replace"):
        real = getattr(os, name)
        monkeypatch.setattr(os, name, lambda *given, name=name, real=real: (done.append(name), real(*given))[1])
    write_atomically(tmp_path / "out", "text")
    assert done == ["fsync", "replace"]


def _entry(what: str) -> Done:
    return Done(by="bench 1", dated=date(2026, 5, 6), what=what)


def test_ended_between_any_two_calls_no_entry_is_lost(short: Record, tmp_path: Path) -> None:
    def add(folder: Path) -> None:
        enter(folder / f"{short.id}.json", _entry("second"))

    def ready(folder: Path) -> None:
        enter(keep(short, folder), _entry("first"))

    ready(tmp_path)
    first = tmp_path / f"{short.id}.json"
    record, beside = first.read_bytes(), disposition_path(first).read_bytes()
    entered, met = 0, True
    # The record is read and checked first, in thousands of calls that change nothing.
    all_of_them = counted(lambda: add(tmp_path), 0, lambda: None, only_system=False)
    for at in [*range(1, all_of_them - LAST, 1_000), *range(all_of_them - LAST, all_of_them + LAST, 2)]:
        here = tmp_path / f"at{at}"
        here.mkdir()
        path = here / f"{short.id}.json"
        path.write_bytes(record)
        disposition_path(path).write_bytes(beside)
        met = ended_at(lambda here=here: add(here), at)
        found = [each.what for each in dispositions(path)]
        assert found in (["first"], ["first", "second"])
        assert read_record(path) == short
        entered += len(found) == 2
        add(here)
        if not met:
            break
    assert entered >= 1
    assert not met


@pytest.mark.parametrize("most", [0, 4096, 100_000])
def test_a_disk_that_is_full_is_told_and_no_record_is_left(tmp_path: Path, most: int) -> None:
    """The system itself refuses to write further than so many bytes of a file; pipes are none."""
    case, kept = ROOT / "cases" / "refuse" / "hill-2036.yaml", tmp_path / "kept"
    limited = f"""
import resource, signal, sys
from recommender.cli.guard import guarded
from recommender.cli.app import app
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, ({most}, {most}))
sys.exit(guarded(lambda: app(["advise", {str(case)!r}, "--keep", {str(kept)!r}], prog_name="borewright")))
"""
    run = subprocess.run([sys.executable, "-c", limited], capture_output=True, text=True, check=False,
                         env={**os.environ, "PYTHONPATH": str(ROOT)})  # fmt: skip
    assert run.returncode != 0
    assert "cannot be written (File too large)" in run.stderr
    assert "no record of it was kept" in run.stderr
    assert "STOP RIDING" in run.stdout
    assert list(kept.iterdir()) == []


def _rewritten(record: Record, change: Callable[[dict[str, Any]], None], folder: Path) -> Path:
    """Keep a record with its content changed, under the name that such a content has."""
    data = json.loads(stored(record.content))
    change(data)
    content = canonical(data)
    path = folder / f"{id_of(record.content.case, content.encode('utf-8'))}.json"
    path.write_text(content, encoding="utf-8")
    return path


@pytest.mark.parametrize("change", ["verdict", "damage", "notice", "words"])
def test_a_record_that_hides_its_crack_is_refused(short: Record, tmp_path: Path, change: str) -> None:
    """A hash is no signature: a record may be rewritten under a name that fits, and a crack is looked for."""

    def hidden(data: dict[str, Any]) -> None:
        frame = data["advice"]["frame"]
        frame["verdict"] = "proceed" if change == "verdict" else frame["verdict"]
        frame["damage"] = frame["damage"] and change != "damage"
        if change == "notice":
            data["advice"]["notices"] = [each for each in data["advice"]["notices"] if each["id"] != "damage"]
        if change == "words":
            for each in data["advice"]["notices"]:
                each["text"] = "Ride on, all is well."

    with pytest.raises(Flawed, match="does not tell of the damage"):
        read_record(_rewritten(short, hidden, tmp_path))


def test_a_record_rewritten_under_a_fitting_name_no_longer_stands(long: Record, tmp_path: Path) -> None:
    """Who rewrites a record and its name is found out by judging the case again."""

    def refused(data: dict[str, Any]) -> None:
        data["advice"]["frame"]["verdict"] = "refuse"

    assert replay(read_record(keep(long, tmp_path)), lambda _: load()).stands
    forged = read_record(_rewritten(long, refused, tmp_path))
    assert forged.content.advice["frame"]["verdict"] == "refuse"
    assert not replay(forged, lambda _: load()).stands


def _rounds(data: dict[str, Any]) -> None:
    trace = expanded(data["advice"]["trace"])
    names = list(trace)
    for name, other in zip(names, [*names[1:], names[0]], strict=True):
        trace[name]["rests_on"] = [other]
    data["advice"]["trace"] = compact(trace)


def _nowhere(data: dict[str, Any]) -> None:
    stored_trace = data["advice"]["trace"]
    row = next(each for each in stored_trace["rows"] if "rests_on" in stored_trace["kinds"][each[0]][1])
    row[1 + stored_trace["kinds"][row[0]][1].index("rests_on")] = [len(stored_trace["ids"])]


BROKEN: dict[str, Callable[[dict[str, Any]], object]] = {
    "no trace": lambda data: data["advice"].pop("trace"),
    "trace that is a list": lambda data: data["advice"].update(trace=[1]),
    "node of no kind": lambda data: data["advice"]["trace"]["kinds"][0].__setitem__(0, "Nothing"),
    "trace that goes round": _rounds,
    "trace that leads nowhere": _nowhere,
    "trace written out": lambda data: data.update(with_nodes(data)),
    "no sides": lambda data: data["advice"].update(sides={}),
    "frame that is a number": lambda data: data["advice"].update(frame=5),
    "no answer": lambda data: data["advice"].update({each: None for each in data["advice"] if each != "case"}),
}


@pytest.mark.parametrize("kind", BROKEN)
def test_a_record_rewritten_into_something_else_is_no_record(short: Record, tmp_path: Path, kind: str) -> None:
    path = _rewritten(short, BROKEN[kind], tmp_path)
    for read in (read_record, read_decided):
        if read is read_decided and ("trace" in kind or "node" in kind):
            continue  # the trace is not read there
        with pytest.raises(Flawed, match="not the form of a record"):
            read(path)
