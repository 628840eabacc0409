"""The next reading: asked where it settles most, its promise kept when bores are read by chance."""

from pathlib import Path

import numpy as np
import pytest

from recommender.asking.candidates import candidates, sheet_of_side
from recommender.asking.joint import joint
from recommender.asking.next_reading import NextStep, next_readings, still_open
from recommender.asking.rerun import decided, open_questions, with_readings
from recommender.bench.load import load_case

TRIES = 30
CASES = Path(__file__).parents[2] / "cases"


def first_reading(steps: tuple[NextStep, ...], side: str = "drive") -> NextStep:
    return next(each for each in steps if each.kind == "reading" and each.side == side)


def test_a_bore_open_to_ovality_is_read_between_the_turns_taken(case_with, square_two_point, book) -> None:
    step = next_readings(case_with(square_two_point), book)[0]
    assert step.kind == "reading"
    assert step.side == "drive"
    (reading,) = step.readings
    assert reading.instrument == "two"
    assert reading.turn in (45.0, 135.0)
    assert {each.question.fact: each.share for each in step.closes}["evidence.ovality_bound"] == 1.0


def test_without_a_two_point_reading_two_point_readings_come_first(case_with, three_point_only, book) -> None:
    step = first_reading(next_readings(case_with(three_point_only), book))
    assert {each.instrument for each in step.readings} == {"two"}
    assert len(step.readings) > 1
    assert len({each.turn % 180 for each in step.readings}) > 1


@pytest.mark.parametrize("which", ["square_two_point", "one depth"])
def test_the_promise_is_kept_by_bores_drawn_by_chance(which: str, case_with, request, book) -> None:
    """Bore and errors are drawn from what is known; the readings asked for are taken and the pipeline run again."""
    loaded = load_case(CASES / "measure_again" / "barge-2080.yaml") if which == "one depth" else (
        case_with(request.getfixturevalue(which)))
    side = "non_drive" if which == "one depth" else "drive"
    step = first_reading(next_readings(loaded, book), side)
    random = np.random.default_rng(11)
    sheet = sheet_of_side(loaded, side, book)
    possible = {(each.reading.instrument, each.depth, each.turn): each
                for each in candidates(loaded, side, sheet, 46.0, book)}
    taken = [possible[each] for each in step.readings]
    now = joint(sheet, [each.reading for each in taken])
    closed = dict.fromkeys((each.question.fact for each in step.closes), 0)
    for _ in range(TRIES):
        truth = random.multivariate_normal(now.mean, now.covariance)
        rows = [(each.reading.instrument, each.depth, each.turn,
                 each.shown(float(now.row(each.reading) @ truth) + random.normal() * each.reading.u)) for each in taken]
        still = {fact for fact, where in still_open(with_readings(loaded, side, rows), book) if where == side}
        for fact in closed:
            closed[fact] += fact not in still
    for each in step.closes:
        share = closed[each.question.fact] / TRIES
        doubt = 3 * np.sqrt(max(share * (1 - share), 0.02) / TRIES) + 1 / step.reruns
        assert each.share == pytest.approx(share, abs=doubt), each.question.fact


def test_every_open_question_has_a_step(case_with, square_two_point, book) -> None:
    loaded = case_with(square_two_point)
    answered = {each.question for step in next_readings(loaded, book) for each in step.closes}
    assert answered == set(open_questions(decided(loaded, book), book))


def test_readings_that_disagree_are_repeated_first(case_with, book) -> None:
    loaded = case_with(
        "      - {instrument: mic, unit: mm, turns: [0, 40, 80], at: {2: [45.974, 45.973, 45.971],"
        " 5: [45.974, 46.021, 45.972], 8: [45.975, 45.973, 45.972]}}\n"
        "      - {instrument: two, unit: mm, turns: [0, 60, 120], at: {2: [45.974, 45.975, 45.971],"
        " 8: [45.975, 45.974, 45.971]}}\n")
    step = next_readings(loaded, book)[0]
    assert step.kind == "repeat"
    assert step.readings[0] == ("mic", 5.0, 40.0)


def test_nothing_open_nothing_asked(case_with, book) -> None:
    loaded = case_with()
    assert open_questions(decided(loaded, book), book) == ()
    assert next_readings(loaded, book) == ()


def test_the_same_case_asks_the_same(case_with, square_two_point, book) -> None:
    loaded = case_with(square_two_point)
    assert next_readings(loaded, book) == next_readings(loaded, book)
