"""Swings of full turns: form all along the seat, or of one depth alone, against sums by other ways and exact bores."""

import numpy as np
import pytest
from scipy.stats import norm

from recommender.metrology.circles import maximum_inscribed
from recommender.metrology.draws import draw
from recommender.metrology.full_turns import FullTurn, apart, explained, full_turns, largest_swing, taken_alone
from recommender.metrology.model import posterior
from recommender.metrology.response import Section, two_point
from recommender.metrology.rows import TWO_LOBES
from recommender.metrology.scores import normal_scores
from recommender.metrology.sheet import Assumptions, Sees, Sheet, Span

SHARE, MOST = 0.02, 0.03
MIXED = Assumptions(0.008, 0.005, 0.002, 0.002, 0.004, section_sd=0.001, local_share=SHARE, local_most=MOST)
ALONG = MIXED._replace(local_share=0.0, local_most=0.0)
TWO: Sees = "two_point"
U = 0.001
DOUBT = np.sqrt(2) * U
STEP = 2e-5
ANGLES = np.arange(720) * np.pi / 360


def turn(swing: float, depth: float | None, u: float = U, sees: Sees = TWO) -> Span:
    return Span(41.0 - swing / 2, 41.0 + swing / 2, sees, sees, depth, u)


def shown(bench, spans, field: str = "ovality", assumed: Assumptions = MIXED, readings=()):
    return bench.summary(bench.sheet(*readings, spans=tuple(spans), assumptions=assumed), field)


def test_a_depth_that_swings_more_than_the_others_counts_for_itself(bench) -> None:
    """30 um at one depth and 16 at two are no 19 to 22 um all along: where part and bore meet it is 30."""
    found = shown(bench, [turn(0.030, 3.0), turn(0.016, 8.0), turn(0.016, 13.0)])
    assert found.low > 0.026
    assert found.low < 0.030 < found.high
    averaged = shown(bench, [turn(0.030, 3.0), turn(0.016, 8.0), turn(0.016, 13.0)], assumed=ALONG)
    assert averaged.high < 0.026


def test_swings_that_agree_are_one_form_all_along(bench) -> None:
    swings = [turn(0.020, 3.0), turn(0.021, 8.0), turn(0.019, 13.0)]
    found, along = shown(bench, swings), shown(bench, swings, assumed=ALONG)
    assert found.value == pytest.approx(along.value, abs=2e-4)
    assert found.high - found.low == pytest.approx(along.high - along.low, abs=6e-4)


@pytest.mark.parametrize("swings", [(0.020, 0.012), (0.030, 0.016, 0.016), (0.012, 0.012, 0.022), (0.055, 0.010)])
def test_full_turns_alone_weigh_as_a_sum_over_all_cases_does(bench, swings: tuple[float, ...]) -> None:
    """The form all along and that of the depth that swings most, summed on a fine grid over which depths stand alone.

    Here the lobes along the largest have the prior of the model, a normal one; weights of the draws stand for the rest.
    """
    sheet = bench.sheet(spans=tuple(turn(each, 3.0 + 5 * place) for place, each in enumerate(swings)),
                        assumptions=MIXED)
    found = posterior(sheet)
    made = draw(found, sheet, normal_scores(12), mistaken=0.0)
    grid = np.arange(-0.02, 0.08, STEP)
    density = norm.pdf(grid / 2, 0, found.prior_sd[TWO_LOBES[0]])
    most = max(MOST, *swings)
    extra = np.arange(STEP / 2, most, STEP)
    for swing in swings:
        along = (1 - SHARE) * norm.pdf(swing, grid, DOUBT)
        alone = np.array([SHARE / most * norm.pdf(swing, each + extra, DOUBT).sum() * STEP for each in grid])
        if swing == max(swings):
            share_alone = np.divide(alone, along + alone, out=np.zeros_like(grid), where=along + alone > 0)
        density = density * (along + alone)
    density /= density.sum()
    base = 2 * np.hypot(*_drawn_lobes(sheet))
    for wanted in (0.1, 0.5, 0.9):
        edge = grid[np.searchsorted(np.cumsum(density), wanted)]
        assert made.weights[base <= edge].sum() == pytest.approx(wanted, abs=0.06)
    stands_alone = made.ovality > base + 1e-12
    assert made.weights[stands_alone].sum() == pytest.approx(density @ share_alone, abs=0.04)


def _drawn_lobes(sheet: Sheet):
    """Return the two-lobe components of the draws as the linear model has them."""
    found = posterior(sheet)
    return (found.mean[:, None] + np.linalg.cholesky(found.covariance) @ normal_scores(9).T)[list(TWO_LOBES)]


def test_a_swing_larger_than_any_form_of_one_depth_that_is_assumed_counts_all_the_same(bench) -> None:
    found = shown(bench, [turn(0.080, 3.0), turn(0.010, 8.0), turn(0.010, 13.0)])
    assert found.low > 0.075


def test_swings_of_one_depth_are_averaged_with_the_doubt_of_their_mean(bench) -> None:
    sheet = bench.sheet(spans=(turn(0.020, 3.0), turn(0.024, 3.0), turn(0.010, 8.0), turn(0.011, None)))
    first, second, unknown = full_turns(sheet, TWO)
    assert first == (3.0, pytest.approx(0.022), pytest.approx(DOUBT / np.sqrt(2)), 2)
    assert second == (8.0, pytest.approx(0.010), pytest.approx(DOUBT), 1)
    assert unknown.depth is None
    rough = bench.sheet(spans=(turn(0.020, 3.0), turn(0.024, 3.0, 3 * U)))
    assert full_turns(rough, TWO)[0].doubt == pytest.approx(3 * U)
    assert full_turns(sheet, "three_point") == ()


def test_a_full_turn_taken_again_counts_as_one_with_less_doubt(bench) -> None:
    beside = (turn(0.016, 8.0), turn(0.016, 13.0))
    again = shown(bench, [turn(0.029, 3.0), turn(0.031, 3.0), *beside])
    once = shown(bench, [turn(0.030, 3.0, U / np.sqrt(2)), *beside])
    assert (again.low, again.value, again.high) == pytest.approx((once.low, once.value, once.high), abs=4e-4)


def test_readings_at_unknown_turns_are_no_full_turn(bench) -> None:
    loose = turn(0.020, 3.0)._replace(full_turn=False)
    assert full_turns(bench.sheet(spans=(loose,)), TWO) == ()


def test_full_turns_stand_alone_only_where_no_reading_of_their_kind_has_a_turn(bench) -> None:
    spans = (turn(0.020, 3.0),)
    assert len(taken_alone(bench.sheet(*bench.read("three_point", (0,), (3,)), spans=spans), TWO)) == 1
    assert taken_alone(bench.sheet(*bench.read(TWO, (0,), (3,)), spans=spans), TWO) == ()


def test_how_far_apart_swings_lie_is_counted_beyond_their_doubt() -> None:
    assert apart(()) == 0.0
    assert apart([FullTurn(3.0, 0.020, 0.001, 1)]) == 0.0
    assert apart([FullTurn(3.0, 0.020, 0.001, 1), FullTurn(8.0, 0.021, 0.001, 1)]) == 0.0
    assert apart([FullTurn(3.0, 0.030, 0.001, 1), FullTurn(8.0, 0.016, 0.001, 1)]) == pytest.approx(0.006)
    assert apart([FullTurn(3.0, 0.030, 0.001, 1), FullTurn(8.0, 0.016, 0.003, 1)]) == pytest.approx(0.004)


def test_without_a_chance_of_form_of_one_depth_a_swing_is_that_of_the_lobes() -> None:
    swing, seen = np.linspace(0, 0.04, 9), FullTurn(3.0, 0.02, 0.002, 1)
    assert explained(swing, [seen], seen, ALONG) == pytest.approx(norm.pdf(swing, 0.02, 0.002) / norm.pdf(0, 0, 0.002))
    assert np.array_equal(largest_swing(swing, [seen], ALONG, normal_scores(2)[:9]), swing)
    assert largest_swing(swing, [], MIXED, normal_scores(2)[:9]) is swing


def test_a_swing_that_is_that_of_the_lobes_may_still_be_half_a_form_of_its_own() -> None:
    seen = FullTurn(3.0, 0.020, 0.001, 1)
    own = SHARE * 0.5 * 0.001 * np.sqrt(2 * np.pi) / MOST
    assert explained(np.array([0.020]), [seen], seen, MIXED) == pytest.approx(1 - SHARE + own)


def test_one_score_chooses_whether_the_depth_stands_alone_and_the_other_is_its_error() -> None:
    swing, seen = np.full(3, 0.010), FullTurn(3.0, 0.020, 0.001, 1)
    scores = np.array([[-5.0, 2.0], [-5.0, -20.0], [9.0, 2.0]])
    assert largest_swing(swing, [seen], MIXED, scores) == pytest.approx([0.022, 0.010, 0.010])
    assert largest_swing(np.full(3, 0.9), [seen], MIXED, scores) == pytest.approx(0.9)


def test_form_of_one_depth_only_adds_to_the_swing() -> None:
    """A swing far under that of the lobes is explained by nothing; one far over it by a form of its own."""
    seen = FullTurn(3.0, 0.020, 0.001, 1)
    under, over = (float(explained(np.array([each]), [seen], seen, MIXED)[0]) for each in (0.028, 0.012))
    assert under < 1e-6
    assert over == pytest.approx(SHARE * 0.001 * np.sqrt(2 * np.pi) / MOST, rel=1e-3)


def pinched(height: float, at: float, angle: float = 0.4) -> Section:
    """Return the section of a round bore of 41 mm with a bump that stands `at` times as high as in its middle."""
    def radius(turns):
        off = np.angle(np.exp(1j * (turns - angle)))
        return 20.5 - height * at * np.exp(-((off / 0.2) ** 2) / 2)

    return radius


@pytest.mark.parametrize("height", [0.010, 0.015, 0.020])
def test_a_pinch_met_by_one_full_turn_alone_is_held(bench, height: float) -> None:
    """Exact geometry: the bump lies between the turns and depths that were read; the inscribed circle is solved."""
    def full_turn(depth: float, at: float) -> Span:
        met = [two_point(pinched(height, at), each) for each in range(0, 180, 3)]
        return Span(min(met), max(met), "two", TWO, depth, U, (("instrument two", 0.002),))

    round_bore = bench.bore.copy()
    round_bore[:] = [41.0, *[0.0] * 8]
    readings = (*bench.read("three_point", (0, 40, 80), (3, 13), bore=round_bore),
                *bench.read(TWO, (60, 90, 150), (3, 13), bore=round_bore))
    spans = (full_turn(1.0, 0.02), full_turn(8.0, 1.0), full_turn(13.0, 0.02))
    inside = pinched(height, 1.0)(ANGLES)
    true = maximum_inscribed(np.stack([inside * np.cos(ANGLES), inside * np.sin(ANGLES)], axis=1)).diameter
    found = shown(bench, spans, "inscribed", readings=readings)
    assert found.low < true
    local = shown(bench, spans, "smallest_local", readings=readings)
    assert local.low < 41.0 - height
    assert 41.0 - height == pytest.approx(local.value, abs=0.006)
    ovality = shown(bench, spans, "ovality", readings=readings)
    assert ovality.low < height < ovality.high
    assert ovality.low > height / 2


def test_full_turns_need_two_more_columns_of_scores(bench) -> None:
    sheet = bench.sheet(spans=(turn(0.020, 3.0),), assumptions=MIXED)
    with pytest.raises(ValueError, match="12 columns"):
        draw(posterior(sheet), sheet, normal_scores(11))
