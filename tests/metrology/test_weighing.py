"""What draws come to: shares of their weight that are told, and what was summed up once."""

import numpy as np
import pytest

from recommender.metrology.summary import all_alike
from recommender.metrology.weighing import Weighing

ALIKE = np.full(400, 1 / 400)


@pytest.mark.parametrize(("confidence", "share", "told"), [
    (0.95, 0.976, True), (0.95, 0.974, None), (0.95, 0.026, None), (0.95, 0.024, False),
    (0.98, 0.991, True), (0.98, 0.989, None), (0.98, 0.011, None), (0.98, 0.009, False),
    (0.98, 1.0, True), (0.98, 0.0, False), (0.98, 0.5, None),
])  # fmt: skip
def test_what_holds_on_a_share_of_all_weight_is_told_at_a_two_sided_confidence(confidence, share, told) -> None:
    """As an interval of that confidence does: half of what is left lies beyond either end."""
    assert Weighing(ALIKE, 400.0, confidence).told(share) is told


@pytest.mark.parametrize("count", [1, 7, 400])
def test_draws_count_alike_only_when_all_do(count) -> None:
    assert all_alike(np.full(count, 1 / count))
    assert not all_alike(np.full(count, 1 / (count + 1)))
    assert not all_alike(np.array([*[1 / (count + 1)] * count, 1.1 / (count + 1)]))


def test_draws_are_summed_up_alike_however_they_are_asked_for() -> None:
    """Evenly spaced draws from 0 to 399: the middle of them, and 2.5 % of them beyond either end."""
    values = np.random.default_rng(1).permutation(400).astype(np.float64)
    by = Weighing(ALIKE, 400.0)
    found = by.once(values)
    assert by.summary(values) == found
    assert (found.value, found.low, found.high) == pytest.approx((199.5, 9.5, 389.5), abs=1)
