"""What was done in the end stands beside a record and never changes it."""

import json
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

from recommender.ground.flaw import Flawed
from recommender.records.disposition import Done, disposition_path, dispositions, enter
from recommender.records.record import Record
from recommender.records.store import keep, read_record

ROOT = Path(__file__).resolve().parents[2]


def done(**more: str | date) -> Done:
    given = {"by": "bench 1", "dated": date(2026, 5, 6), "what": "frame sent to its maker", **more}
    return Done.model_validate(given)


def refused(path: Path, entry: Done) -> str:
    with pytest.raises(Flawed) as caught:
        enter(path, entry)
    assert not disposition_path(path).exists()
    return str(caught.value)


def test_entries_are_added_in_order_and_the_record_stays(short: Record, tmp_path: Path) -> None:
    path = keep(short, tmp_path)
    entries = (done(), done(by="bench 2", what="came back repaired", drive="nothing"))
    assert dispositions(path) == ()
    for each in entries:
        enter(path, each)
    assert dispositions(path) == entries
    assert read_record(path) == short
    assert disposition_path(path).name == f"{short.id}.disposition.json"


def test_a_difference_needs_a_reason(short: Record, long: Record, tmp_path: Path) -> None:
    path = keep(short, tmp_path)
    assert "a reason must be given" in refused(path, done(drive="press_as_is"))
    enter(path, done(drive="press_as_is", reason="for the museum wall, never ridden"))
    other = keep(long, tmp_path)
    assert "(drive): a reason" in refused(other, done(drive="nothing", non_drive="press_as_is"))
    enter(other, done(drive="press_as_is", non_drive="press_as_is"))


@pytest.mark.parametrize(
    ("entry", "said"),
    [({"drive": "pres_as_is", "reason": "x"}, "known are nothing, press_as_is"), ({"by": " "}, "who and what"),
     ({"what": ""}, "who and what"), ({"dated": date(2026, 4, 23)}, "before the frame was received")],
)  # fmt: skip
def test_what_cannot_be_entered(short: Record, tmp_path: Path, entry: dict[str, str | date], said: str) -> None:
    assert said in refused(keep(short, tmp_path), done(**entry))


def test_nothing_is_entered_for_a_changed_record(short: Record, tmp_path: Path) -> None:
    path = keep(short, tmp_path)
    path.write_bytes(path.read_bytes() + b" ")
    assert "not what was kept" in refused(path, done())


@pytest.mark.parametrize("text", ["", "[]", '{"format":"borewright/disposition/2","record":"x","entries":[]}'])
def test_a_spoilt_disposition_is_never_written_over(short: Record, tmp_path: Path, text: str) -> None:
    path = keep(short, tmp_path)
    disposition_path(path).write_text(text, encoding="utf-8")
    with pytest.raises(Flawed, match="form of a disposition"):
        enter(path, done())
    assert disposition_path(path).read_text(encoding="utf-8") == text


def test_the_disposition_of_another_record_is_refused(short: Record, long: Record, tmp_path: Path) -> None:
    path, other = keep(short, tmp_path), keep(long, tmp_path)
    enter(path, done())
    disposition_path(path).rename(disposition_path(other))
    with pytest.raises(Flawed, match="of another record"):
        dispositions(other)


ENTER = """
import sys
from datetime import date
from pathlib import Path
from recommender.records.disposition import Done, enter
for count in range(10):
    enter(Path(sys.argv[1]), Done(by=sys.argv[2], dated=date(2026, 5, 6), what=str(count)))
"""


@pytest.mark.skipif(sys.platform == "win32", reason="files are not held alone there")
def test_entered_by_several_at_once_nothing_is_lost(short: Record, tmp_path: Path) -> None:
    path = keep(short, tmp_path)
    runs = [
        subprocess.Popen([sys.executable, "-c", ENTER, str(path), f"bench {each}"], cwd=ROOT) for each in range(3)
    ]
    assert [run.wait() for run in runs] == [0, 0, 0]
    entered = [(each.by, each.what) for each in dispositions(path)]
    for bench in range(3):
        assert [what for by, what in entered if by == f"bench {bench}"] == [str(count) for count in range(10)]
    assert len(entered) == 30
    assert json.loads(disposition_path(path).read_text(encoding="utf-8"))["record"] == short.id
