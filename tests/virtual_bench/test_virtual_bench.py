"""A small sample of the virtual bench, and that it can see harm; the kept figures against what is promised."""

import json
import re
import sys
from pathlib import Path

import numpy as np
import pytest

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from recommender.advice import advise
from recommender.asking.plan import plan_for
from recommender.bench.instruments import Instrument
from recommender.deciding.decide import decide
from recommender.deriving.derived import SIDES
from recommender.metrology.inscribed import loss
from recommender.rulebook.book import Rulebook
from recommender.rulebook.load import load
from virtual_bench import reporting
from virtual_bench.figures import Share, figures
from virtual_bench.frames import FORMS, frame, population
from virtual_bench.habits import HABITS, measured
from virtual_bench.judging import harm
from virtual_bench.reading import FULL_TURNS, exact_reading, extremes
from virtual_bench.running import PRACTICES, judged, lines_in, missing
from virtual_bench.shape import Bell, Lobe, Pinch, Shape
from virtual_bench.truth import Truth
from virtual_bench.writing import case_text, loaded

KEPT = json.loads(reporting.KEPT.read_text("utf-8"))
SAMPLE = range(100, 106)
# Facts that are a band by their nature, whatever is known.
BANDS = ("bearing.class_clearance_left", "cut.bore")


@pytest.fixture(scope="module")
def book() -> Rulebook:
    return load()


def test_a_sample_is_judged_and_the_advice_says_the_same(book: Rulebook) -> None:
    lines = [judged(number, ("plan",), book) for number in SAMPLE]
    for line in lines[:2]:
        made = frame(line["frame"], book)
        advice = advise(loaded(case_text(made, measured(made, "plan", book), book), "sample.yaml"), book)
        assert advice.frame.verdict == line["habits"]["plan"]["verdict"]
        assert [advice.sides[name].verdict for name in SIDES if advice.frame.verdict == "proceed"] in (
            [], line["habits"]["plan"]["sides"])
    counted = figures(lines)
    assert counted["plan"]["pressed"][1] == len(SAMPLE)
    assert sum(counted["plan"][key][0] for key in ("pressed", "asked", "refused")) == len(SAMPLE)


def test_every_habit_and_practice_is_run(book: Rulebook) -> None:
    line = judged(104, tuple(HABITS), book)
    assert set(line["habits"]) == set(HABITS)
    assert set(line["practices"]) == set(PRACTICES)
    assert line["habits"]["calliper"]["verdict"] == "measure_again"


def test_a_frame_is_the_same_whatever_else_was_drawn(book: Rulebook) -> None:
    assert frame(7, book) == frame(7, book) != frame(8, book)
    assert measured(frame(7, book), "plan", book) == measured(frame(7, book), "plan", book)


def test_the_truth_has_no_spread(book: Rulebook) -> None:
    known = Truth(frame(104, book), book).derived()
    facts = [fact for side in known.sides.values() for fact in side.facts.values()]
    facts += [fact for side in known.sides.values() for each in side.options for fact in each.facts.values()]
    wide = {fact.fact for fact in facts
            if fact.low is not None and fact.high is not None and fact.high - fact.low > 1e-3 * (1 + abs(fact.high))}
    assert wide <= set(BANDS)


def test_work_that_the_truth_bars_is_seen(book: Rulebook) -> None:
    """Readings of a bore rounder than the true one let the work through; the bench has to call that harm."""
    number = next(each for each in range(200) if frame(each, book).near == "ovality" and _true_verdict(each, book))
    made = frame(number, book)
    round_sides = {name: _rounder(bore) for name, bore in made.sides.items()}
    rounder = type(made)(**{**made.__dict__, "sides": round_sides})
    truth = Truth(made, book)
    decision = decide(Truth(rounder, book).derived(), book)
    assert decision.frame.verdict == "proceed"
    assert "form.too-oval" in harm(decision, truth, truth.decision()).barred


def _true_verdict(number: int, book: Rulebook) -> bool:
    made = frame(number, book)
    gate = book.limits["form.ovality_gate"].value / 1000
    too_oval = any(bore.shape.sizes().ovality > gate + 0.001 for bore in made.sides.values())
    return too_oval and not made.sign and not made.insert and made.part_in_hand and made.angle < 5


def _rounder(bore):  # type: ignore[no-untyped-def]
    return type(bore)(Shape(bore.shape.seat, bore.shape.middle), bore.wall, bore.part_od)


def test_sizes_of_a_known_form() -> None:
    """Two and three lobes have a closed form: the inscribed circle is smaller by `loss`, wherever they stand."""
    made = Shape(10.0, 46.0, taper=0.001, lobes=(Lobe(2, 0.003, 20), Lobe(3, 0.002, 70)))
    sizes = made.sizes()
    assert sizes.mean == pytest.approx(46.0, abs=1e-6)
    assert sizes.bottom - sizes.mouth == pytest.approx(0.010, abs=1e-6)
    assert sizes.ovality == pytest.approx(4 * 0.003, abs=1e-5)
    assert sizes.lobing == pytest.approx(4 * 0.002, abs=1e-5)
    assert sizes.inscribed == pytest.approx(45.995 - float(loss(0.006, 0.004)), abs=2e-5)


def test_the_recommended_habit_takes_the_full_turns_that_a_plan_asks_for(book: Rulebook) -> None:
    kinds = ("three_point_micrometer", "two_point_gauge")
    at_hand = [Instrument.model_validate({"id": kind, "kind": kind}) for kind in kinds]
    plan = plan_for("pf30", "carbon", at_hand, book)
    assert tuple(each.depth for each in plan.full_turns) == FULL_TURNS.depths
    blocks = measured(frame(104, book), "plan", book).blocks["drive"]
    swept = [each for each in blocks if each.full_turns]
    assert [tuple(each.rows) for each in swept] == [FULL_TURNS.depths]
    assert all(smallest <= largest for smallest, largest in swept[0].rows.values())
    assert "spans: {1: [" in case_text(frame(104, book), measured(frame(104, book), "plan", book), book)


def test_a_full_turn_meets_a_pinch_that_readings_at_set_turns_pass_over() -> None:
    pinched = Shape(10.0, 46.0, pinch=Pinch(0.015, 30.0, 5.0, 12.0, 2.0))
    smallest, largest = extremes(pinched.section(5.0), "two_point")
    assert largest - smallest == pytest.approx(0.015, abs=1e-4)
    set_turns = [exact_reading(pinched.section(5.0), "two_point", turn) for turn in (0, 60, 120)]
    assert max(set_turns) - min(set_turns) < 0.002


def test_a_plug_stops_where_the_bore_leaves_it_no_room() -> None:
    tapered = Shape(10.0, 46.0, taper=-0.002)
    assert tapered.enters_to(45.989) == 10.0
    assert tapered.enters_to(46.001) == pytest.approx(4.5, abs=0.4)
    assert tapered.enters_to(46.02) == 0.0


def test_forms_the_model_does_not_have_change_what_is_true() -> None:
    plain = Shape(10.0, 46.0)
    bell, pinch = Shape(10.0, 46.0, bell=Bell(0.02, 2.0)), Shape(10.0, 46.0, pinch=Pinch(0.01, 30, 5.0, 10, 1.0))
    # A bell opens as the square of what is left of its reach: over the whole seat it is the bowed line itself.
    assert Shape(10.0, 46.0, bell=Bell(0.02, 10.0)).sizes().mouth == pytest.approx(46.02)
    assert 46.0 < bell.sizes().mouth < 46.02
    assert bell.sizes().widest == pytest.approx(46.02)
    assert bell.sizes().inscribed == pytest.approx(46.0, abs=1e-6)
    # A bump of 10 um pushes the circle away by half of it.
    assert 0.009 < plain.sizes().inscribed - pinch.sizes().inscribed < 0.0101
    assert exact_reading(pinch.section(5.0), "two_point", 30) == pytest.approx(45.99, abs=1e-6)
    assert exact_reading(pinch.section(9.5), "two_point", 30) == pytest.approx(46.0, abs=1e-6)


def test_the_population_is_what_was_asked_for(book: Rulebook) -> None:
    drawn = [frame(number, book) for number in range(120)]
    assert np.mean([bool(each.hidden) for each in drawn]) == pytest.approx(population()["hidden"]["share"], abs=0.08)
    assert np.mean([bool(each.near) for each in drawn]) == pytest.approx(population()["near"]["share"], abs=0.13)
    assert {"", *FORMS} >= {each.hidden for each in drawn} > {""}


def test_a_run_goes_on_where_it_stopped(tmp_path: Path, book: Rulebook) -> None:
    store = tmp_path / "frames.ndjson"
    line = {"frame": 3, "habits": {"plan": {}}, "practices": {}}
    store.write_text(json.dumps(line) + "\n" + json.dumps(line)[:20], "utf-8")
    assert list(lines_in(store)) == [3]
    assert list(missing(range(2, 5), ("plan",), store)) == [2, 4]
    assert list(missing([3], ("plan", "one_turn"), store)) == [3]


def test_the_guide_prints_the_kept_figures() -> None:
    guide = reporting.GUIDE.read_text("utf-8")
    assert reporting.with_table(guide, KEPT) == guide
    for plot in re.findall(r"\((tests/virtual_bench/plots/[a-z]+\.svg)\)", guide):
        assert (reporting.GUIDE.parent / plot).exists()


def test_the_kept_figures_meet_what_is_promised() -> None:
    plan = {key: Share(*found) for key, found in KEPT["plan"].items()}
    assert plan["pressed"].of >= 20_000
    assert max(plan["barred_near"].value, plan["wrong_size_near"].value) <= 1 / 100
    assert max(plan["barred_all"].interval()[1], plan["wrong_size_all"].interval()[1]) <= 1 / 1000
    assert plan["asked_clear"].value < 0.05
    assert KEPT["truth"]["near"][0] >= KEPT["truth"]["near"][1] / 3
    worst = max(plan["barred_all"].value, plan["wrong_size_all"].value)
    assert all(Share(*KEPT[name]["barred_all"]).value >= 20 * worst for name in PRACTICES)


@pytest.mark.parametrize("name", [each for each in HABITS if each not in ("plan", "plan_and_plugs", "mistaken")])
def test_a_poorer_habit_asks_more_and_harms_no_more(name: str) -> None:
    """What a habit shows beyond the plan is questions: its harm stays below what its few frames could tell apart."""
    habit, plan = KEPT[name], KEPT["plan"]
    assert Share(*habit["asked"]).value > Share(*plan["asked"]).value
    assert Share(*habit["barred_all"]).interval()[0] <= Share(*plan["barred_all"]).interval()[1]
