"""What a second round of readings settled."""

import re
from collections.abc import Callable
from pathlib import Path

from recommender.records.record import Record
from recommender.records.settled import settled

Recorded = Callable[..., Record]
CASES = Path(__file__).resolve().parents[2] / "cases"


def advice(record: Recorded, text: str) -> dict[str, object]:
    return record(text).content.advice


def test_a_two_point_reading_settles_what_three_points_cannot_see(record: Recorded, long_text: str) -> None:
    first = re.sub(r"\n      - \{instrument: two, .*", "", long_text)
    assert first.count("instrument: two") == 0
    before, after = advice(record, first), advice(record, long_text)
    found = settled(before, after)
    assert before["frame"]["verdict"] == "measure_again"  # type: ignore[index]
    assert after["frame"]["verdict"] == "proceed"  # type: ignore[index]
    assert ("frame", "measure_again", "proceed") in found.verdicts
    assert found.gone
    sharper = [each.where for each in found.sharper]
    assert "drive/bore.ovality" in sharper
    assert "non_drive/bore.ovality" in sharper
    back = settled(after, before)
    assert back.opened == found.gone
    assert back.gone == found.opened
    assert sorted(back.wider) == sorted((where, now, then) for where, then, now in found.sharper)


def test_what_was_unknown_and_is_known_now(record: Recorded, long_text: str) -> None:
    blind = re.sub(r"alignment: .*", "alignment: unknown", long_text)
    assert blind != long_text
    found = settled(advice(record, re.sub(r"crash: no_crash", "crash: unknown", blind)), advice(record, long_text))
    assert any("crash" in each.where for each in found.known)
    assert all(each.before.startswith("unknown") for each in found.known)


def test_nothing_is_settled_by_the_same_readings(long: Record) -> None:
    assert settled(long.content.advice, long.content.advice) == ((), (), (), (), (), ())
