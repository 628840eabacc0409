import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from recommender.metrology.scores import normal_scores
from recommender.metrology.summary import summarise

EVEN = np.full(4096, 1 / 4096)


def test_median_and_interval_of_a_normal_quantity() -> None:
    found = summarise(41 + 0.002 * normal_scores(1)[:, 0], EVEN, 4096)
    assert found[:3] == pytest.approx((41.0, 41 - 0.00392, 41 + 0.00392), abs=5e-6)


def test_sampling_error_is_that_of_random_draws() -> None:
    stated = summarise(normal_scores(1)[:, 0], EVEN, 4096).sampling_error
    random = np.random.default_rng(5)
    ends = [np.quantile(random.normal(size=4096), 0.025) for _ in range(400)]
    assert stated == pytest.approx(np.std(ends), rel=0.2)


def test_fewer_effective_draws_make_a_larger_sampling_error() -> None:
    values = normal_scores(1)[:, 0]
    assert summarise(values, EVEN, 100).sampling_error > 4 * summarise(values, EVEN, 4096).sampling_error


def test_weights_count_as_repeats() -> None:
    values = normal_scores(1)[:, 0]
    times = 1 + (np.arange(4096) * 7 % 5)
    weighted = summarise(values, times / times.sum(), 4096, 0.98)
    repeated = summarise(np.repeat(values, times), None, 4096, 0.98)
    assert weighted == pytest.approx(repeated, abs=2e-3)


@given(st.integers(1, 60), st.integers(0, 2**32), st.sampled_from((0.9, 0.95, 0.98, 0.999)))
def test_draws_that_count_alike_come_to_the_same_with_and_without_weights(count: int, seed: int, sure: float) -> None:
    values = np.round(np.random.default_rng(seed).normal(46, 0.01, count), 3)
    alike = summarise(values, None, float(count), sure)
    assert alike == pytest.approx(summarise(values, np.full(count, 1 / count), float(count), sure), abs=1e-9)


def test_a_constant_has_no_spread() -> None:
    assert summarise(np.full(8, 41.0), np.full(8, 0.125), 8) == (41.0, 41.0, 41.0, 0.0, 0.0)


def test_a_draw_that_is_no_number_is_refused() -> None:
    with pytest.raises(ValueError, match="not a finite number"):
        summarise(np.array([1.0, np.nan]), np.array([0.5, 0.5]), 2)


def test_the_interval_that_decides_reaches_as_far_as_its_confidence_asks() -> None:
    """Ends of a standard normal: 1.960 at 95 %, 2.326 at 98 %, 2.576 at 99 % (any table of the normal distribution)."""
    values = normal_scores(1)[:, 0]
    for confidence, end in ((0.95, 1.960), (0.98, 2.326), (0.99, 2.576)):
        found = summarise(values, EVEN, 4096, confidence)
        assert (found.low, found.high) == pytest.approx((-1.960, 1.960), abs=0.01)
        assert (found.least, found.most) == pytest.approx((-end, end), abs=0.02)


def test_less_than_what_is_shown_is_never_enough_to_decide() -> None:
    assert summarise(normal_scores(1)[:, 0], EVEN, 4096, 0.5).beyond == 0.0
