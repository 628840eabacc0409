"""What was done in the end stands beside a record and never changes it."""

import json
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

from recommender.account.records_text import disposition_lines
from recommender.ground.flaw import Flawed
from recommender.records.after_pressing import entered
from recommender.records.disposition import Done, disposition_path, dispositions, enter
from recommender.records.record import Record
from recommender.records.store import keep, read_record

ROOT = Path(__file__).resolve().parents[2]


def done(**more: object) -> Done:
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


def test_checks_after_pressing_and_the_day_to_look_again_are_kept_and_shown(long: Record, tmp_path: Path) -> None:
    path = keep(long, tmp_path)
    pressed = {"drive": "press_as_is", "non_drive": "press_as_is", "what": "cups pressed"}
    checks = {"drive.bearing_spins": "yes", "non_drive.bearing_spins": "no", "drive.force": "820 N", "side_play": "no"}
    enter(path, done(**pressed, checks=checks, look_again=date(2026, 6, 20)))
    assert dispositions(path)[0].checks == checks
    told = " ".join(each.text.strip() for each in disposition_lines(long, dispositions(path)))
    assert "drive force of pressing: 820 N" in told
    assert "Not as wanted: non-drive bearing turns free by hand, before the spindle goes in. Take it apart" in told
    assert "the forecast was" in told
    assert "Look again on 2026-06-20" in told
    left = told[told.index("Not entered") :]
    assert "non-drive force of pressing" in left
    assert "drive bearing turns free" not in left.replace("non-drive bearing turns free", "")


def test_a_frame_of_which_nothing_was_pressed_is_asked_for_no_check(short: Record) -> None:
    told = " ".join(each.text for each in disposition_lines(short, (done(drive="nothing"),)))
    assert "Not entered" not in told
    assert "Look again" not in told


@pytest.mark.parametrize(
    ("more", "said"),
    [({"checks": {"drive.bearing_spin": "yes"}}, "drive.bearing_spins"),
     ({"checks": {"drive.seated": "perhaps"}}, "yes or no"),
     ({"checks": {"drive.force": "8 mm"}}, "measured in N"), ({"checks": {"flush_difference": "thick"}}, "flush"),
     ({"look_again": date(2026, 5, 6)}, "no day after 2026-05-06")],
)  # fmt: skip
def test_answers_that_cannot_be_kept(short: Record, tmp_path: Path, more: dict[str, object], said: str) -> None:
    assert said in refused(keep(short, tmp_path), done(**more))


@pytest.mark.parametrize("given", [["drive.seated"], ["drive.seated="], ["side_play=no", "side_play=yes"], ["x=yes"]])
def test_answers_that_cannot_be_read(given: list[str]) -> None:
    with pytest.raises(ValueError, match=r"check|twice"):
        entered(given)
