"""The bench sheet and the next readings read at 80 columns and say how likely, what for, and what stays open."""

from collections.abc import Callable

import pytest

from recommender.account.lines import Line, plain
from recommender.account.plan_text import next_lines, plan_lines
from recommender.asking.bench_of import PlannedReading, PlannedTurn
from recommender.asking.demands import Demand
from recommender.asking.next_reading import Closes, NextStep
from recommender.asking.plan import Plan
from recommender.asking.rerun import Open
from recommender.bench.instruments import Instrument
from recommender.deciding.answer import Advice
from recommender.rulebook.book import Rulebook

Advised = Callable[[str], Advice]
OVAL = Open("bore.ovality", "drive", "Read it with two contacts.", ("drive/press_as_is",))
TAKEN = (PlannedReading("two", 5.0, 0.0), PlannedReading("two", 5.0, 30.0))
MIC = Instrument.model_validate({"id": "mic", "kind": "three_point_micrometer", "error_limit": "3 um"})
CALLIPER = Instrument.model_validate({"id": "cal", "kind": "calliper"})
READ = tuple(PlannedReading("mic", depth, turn) for depth in (2.0, 8.0) for turn in (0.0, 40.0))
SIZE = Demand("mean", 45.95, 46.0, "bore limits of pf30")
FORM = Demand("ovality", None, 0.025, "form.ovality_gate")


def plan(finer: dict[str, float] | None) -> Plan:
    return Plan("pf30", "carbon", 10.0, (*READ, READ[0]), {SIZE: 0.96}, {FORM: 0.57}, finer, ("ovality",), ("cal",))


def flat(lines: list[Line]) -> str:
    text = plain(lines)
    assert text.isascii()
    assert max(map(len, text.splitlines())) <= 80
    return " ".join(text.split())


def test_a_repeated_place_has_a_blank_for_each_reading(book: Rulebook) -> None:
    lines = plain(plan_lines(plan(None), (MIC, CALLIPER), book)).splitlines()
    start = lines.index("DRIVE SIDE")
    assert [line.count("________") for line in lines[start + 3:start + 6]] == [2, 1, 2]


@pytest.mark.parametrize(
    ("finer", "said"),
    [({"mic": 0.002}, "in reach of mic with an error limit of 2.0 um"), (None, "Finer gauges of the same kinds")],
)
def test_a_plan_says_what_it_settles_and_what_not(finer: dict[str, float] | None, said: str, book: Rulebook) -> None:
    text = flat(plan_lines(plan(finer), (MIC, CALLIPER), book))
    assert "at least 45.950 mm and at most 46.000 mm (bore limits of pf30): 96 %" in text
    assert "57 % with 30 readings or fewer" in text
    assert "Never seen by these instruments: an oval bore" in text
    assert "cal: cannot decide a fit" in text
    assert said in text


def test_a_full_turn_has_a_blank_for_the_smallest_and_the_largest(book: Rulebook) -> None:
    two = Instrument.model_validate({"id": "two", "kind": "two_point_gauge"})
    swept = plan(None)._replace(full_turns=(PlannedTurn("two", 1.0), PlannedTurn("two", 5.0)))
    lines = plan_lines(swept, (MIC, two), book)
    assert "5 readings and 2 full turns on each side" in flat(lines)
    assert "two, full turn depth smallest largest 1 mm ________ ________ 5 mm ________ ________" in flat(lines)
    assert "turn the gauge slowly all the way round" in flat(lines)
    assert "two: two-point bore gauge" in flat(lines)
    assert "a finer one of its kind is at hand" not in flat(lines)
    assert "full turn" not in flat(plan_lines(plan(None), (MIC, two), book)).lower()


def test_readings_come_with_how_likely_they_settle_what(advised: Advised) -> None:
    step = NextStep("reading", "drive", (Closes(OVAL, 0.25),), TAKEN, None, 0.43, 8)
    text = flat(next_lines(advised("measure_again/barn-2050"), (step,)))
    assert "Drive side: Take the 2 readings: two at depth 5 mm, turn 0 and 30 deg." in text
    assert "settles press as is: out-of-round (oval) (in 2 of 8 outcomes)" in text
    assert "shrinks to 43 %" in text
    assert "Of 8 equally likely outcomes" in text


def test_other_steps_say_what_to_do(advised: Advised) -> None:
    blind = (Closes(OVAL, None),)
    steps = (
        NextStep("repeat", "drive", blind, TAKEN[:1]),
        NextStep("plan", "non_drive", blind, TAKEN, full_turns=(PlannedTurn("two", 1.0), PlannedTurn("two", 8.0))),
        NextStep("go_plug", "drive", (Closes(OVAL, 0.9),), size=45.95, reruns=2),
        NextStep("other", "drive", blind),
        NextStep("other", "non_drive", (Closes(OVAL._replace(side="non_drive"), None),)),
    )
    text = flat(next_lines(advised("measure_again/barn-2050"), steps))
    assert "Read again, for it stands out from the rest: two at depth 5 mm, turn 0 deg." in text
    assert "Nothing was read here yet; take the 2 readings" in text
    assert "; then full turns of two at depths 1 and 8 mm, the smallest and the largest of each." in text
    assert "how likely cannot be told before" in text
    assert "Try a go plug of 45.950 mm." in text
    assert "(90 % likely)" in text
    assert text.count("Read it with two contacts.") == 1
    assert "4. Both sides: Read it with two contacts. Settles press as is." in text
