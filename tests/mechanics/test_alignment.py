"""Seat angle, by hand."""

import numpy as np
import pytest

from recommender.mechanics.alignment import seat_angle


@pytest.mark.parametrize(("offset", "expected"), [(0.106, 6.0), (0.035, 2.0), (-0.106, 6.0)])
def test_offset_over_the_span(offset: float, expected: float) -> None:
    assert seat_angle(offset, 61.0) == pytest.approx(expected, abs=0.03)


def test_offset_and_angle_add_up_at_their_worst() -> None:
    assert seat_angle(0.0, 61.0, -3.0) == pytest.approx(3.0)
    assert seat_angle(np.array([0.0, 0.106]), 61.0, 3.0) == pytest.approx([3.0, 8.974], abs=0.01)


def test_no_span_is_refused() -> None:
    with pytest.raises(ValueError, match="span"):
        seat_angle(0.1, 0.0)
