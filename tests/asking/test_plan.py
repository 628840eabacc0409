"""Plans of readings: they settle what they promise, and nothing in them can be left out."""

from dataclasses import replace

import numpy as np
import pytest

from recommender.asking.bench_of import planned_case, planned_sheet
from recommender.asking.demands import demands, mid_band, unseen
from recommender.asking.plan import MOST, WANTED, Plan, plan_for, rows_of
from recommender.asking.simulated import settled_share
from recommender.bench.sheet_import import sheet_in
from recommender.bench.sheets import write_sheet
from recommender.deriving.draws_of import bore_scores
from recommender.metrology.draws import draw
from recommender.metrology.model import posterior
from recommender.metrology.sheet import Sheet
from recommender.metrology.summary import summarise

BENCHES = 200


@pytest.fixture(scope="module")
def wide(book, mic, two) -> Plan:
    """Return the plan for a 50 um band."""
    return plan_for("pf30", "carbon", (mic, two), book)


@pytest.fixture(scope="module")
def narrow(book, mic, two) -> Plan:
    """Return the plan for a 25 um band and a gauge of 4 um."""
    return plan_for("bb30", "aluminium", (mic, two), book)


def sheet_for(plan: Plan, readings, instruments, book) -> Sheet:
    value = mid_band(book.standards[plan.standard])
    case = planned_case(plan.standard, plan.material, instruments, plan.seat_depth, readings, value)
    return planned_sheet(case, book)


def test_a_wide_band_is_settled_with_few_readings(wide: Plan) -> None:
    assert wide.out_of_reach == {}
    assert wide.unseen == ()
    assert 6 < len(wide.readings) <= MOST
    assert min(wide.shares.values()) >= WANTED
    assert {each.field for each in wide.shares} == {"mean", "inscribed", "widest", "ovality", "lobing", "taper"}


def test_no_reading_can_be_left_out(wide: Plan, book, mic, two) -> None:
    asked = demands(book.standards["pf30"], book)
    for place in range(len(wide.readings)):
        sheet = sheet_for(wide, wide.readings[:place] + wide.readings[place + 1:], (mic, two), book)
        open_ = bool(unseen(sheet, book)) or min(settled_share(sheet, asked).values()) < WANTED
        assert open_, f"{wide.readings[place]} could be left out"


def test_benches_drawn_by_chance_confirm_the_promise(wide: Plan, book, mic, two) -> None:
    """Errors are drawn anew, the posterior is the pipeline's own, with all its draws and wider assumptions."""
    random = np.random.default_rng(7)
    sheet = sheet_for(wide, wide.readings, (mic, two), book)
    met = dict.fromkeys(wide.shares, 0)
    for _ in range(BENCHES):
        made = _bench(sheet, random)
        drawn = draw(posterior(made), made, bore_scores())
        for each in met:
            values = np.abs(getattr(drawn, each.field))
            found = summarise(values, drawn.weights, drawn.effective_count)
            met[each] += (each.low is None or found.low >= each.low) and (each.high is None or found.high <= each.high)
    least = WANTED - 3 * np.sqrt(WANTED * (1 - WANTED) / BENCHES)
    assert {each: count / BENCHES for each, count in met.items() if count / BENCHES < least} == {}


def _bench(sheet: Sheet, random: np.random.Generator) -> Sheet:
    names = {name for each in sheet.readings for name, _ in each.shared}
    errors = {name: random.uniform(-np.sqrt(3), np.sqrt(3)) if name.startswith("instrument") else random.normal()
              for name in sorted(names)}
    return sheet._replace(readings=tuple(
        each._replace(value=each.value + random.normal() * each.u + sum(errors[name] * u for name, u in each.shared))
        for each in sheet.readings))


def test_a_narrow_band_is_out_of_reach_of_any_gauge_that_sees_no_five_lobes(narrow: Plan) -> None:
    """Five lobes of 2.5 um move the widest place by up to 2 * 2.5 * 2.81 = 14 um at 99.5 %, of a band of 25 um."""
    assert "widest" in {each.field for each in narrow.out_of_reach}
    assert all(share < WANTED for share in narrow.out_of_reach.values())
    assert narrow.finer is None


def test_a_narrow_band_of_a_round_bore_needs_a_better_gauge_and_says_so(book, mic, two) -> None:
    five = replace(book.limits["assumption.five_lobes"], value=1.0)
    rounder = replace(book, limits={**book.limits, "assumption.five_lobes": five})
    narrow = plan_for("bb30", "aluminium", (mic, two), rounder)
    assert "widest" in {each.field for each in narrow.out_of_reach}
    assert narrow.finer is not None
    assert narrow.finer["mic"] < book.instruments["three_point_micrometer"].error_limit
    better = [each.model_copy(update={"error_limit": narrow.finer[each.id]}) for each in (mic, two)]
    finer = plan_for("bb30", "aluminium", better, rounder)
    assert finer.out_of_reach == {}
    assert len(finer.readings) <= MOST


def test_what_the_instruments_at_hand_cannot_see_is_said(book, mic, two) -> None:
    assert plan_for("bb86", "carbon", (mic,), book).unseen == ("ovality",)
    assert plan_for("bb86", "carbon", (two,), book).unseen == ("lobing",)


def test_a_calliper_is_left_out_and_alone_refused(book, mic) -> None:
    calliper = mic.model_copy(update={"id": "cal", "kind": "calliper"})
    assert plan_for("bb86", "carbon", (calliper, mic), book).too_coarse == ("cal",)
    with pytest.raises(ValueError, match="none of these instruments"):
        plan_for("bb86", "carbon", (calliper,), book)


@pytest.mark.parametrize(("standard", "material"), [("pf31", "carbon"), ("pf30", "cheese")])
def test_unknown_words_are_refused(standard: str, material: str, book, mic) -> None:
    with pytest.raises(ValueError, match="knows no"):
        plan_for(standard, material, (mic,), book)


def test_the_same_plan_every_time_and_in_any_order(book, mic, two) -> None:
    assert plan_for("bb86", "carbon", (two, mic), book) == plan_for("bb86", "carbon", (mic, two), book)


def test_a_short_seat_is_read_inside_the_seat(book, mic, two) -> None:
    plan = plan_for("bb86", "carbon", (mic, two), book, seat_depth=5.0)
    assert all(0 < each.depth < 5 for each in plan.readings)


def test_full_turns_near_the_face_in_the_middle_and_near_the_end_come_with_two_contacts(wide: Plan, book, mic) -> None:
    assert [tuple(each) for each in wide.full_turns] == [("two", 1.0), ("two", 5.0), ("two", 8.0)]
    assert plan_for("bb86", "carbon", (mic,), book).full_turns == ()
    short = plan_for("bb86", "carbon", (mic, mic.model_copy(update={"id": "b", "kind": "two_point_gauge"})), book, 3.0)
    assert [each.depth for each in short.full_turns] == [0.75, 1.5, 2.25]


def test_the_plan_is_a_sheet_to_fill_in(wide: Plan) -> None:
    sheet = rows_of(wide, "lane-2041")
    assert len(sheet.rows) == 2 * (len(wide.readings) + 2 * len(wide.full_turns))
    assert sheet_in(write_sheet(sheet), "plan.csv").sheet == sheet
