"""Reaming and sleeving, by hand."""

import numpy as np
import pytest

from recommender.mechanics.compound import gap, gap_over_form
from recommender.mechanics.cutting import clean_up, sleeve, wall_left


def test_sleeve_that_leaves_enough_wall() -> None:
    """46.21 mm bore, wall 3.20: reamed to 48.40 for a sleeve of 48.20 by 45.975, bond line 0.10 mm."""
    made = sleeve(45.975, 1.1125, 0.10)
    assert made == pytest.approx((45.975, 48.20, 1.1125, 0.10, 48.40))
    assert wall_left(3.20, 46.21, made.ream_to) == pytest.approx(2.105)


def test_sleeve_that_leaves_too_little_wall() -> None:
    """42.094 mm bore, wall 1.90: reamed to 44.20 for a sleeve of 44.00 by 41.972."""
    made = sleeve(41.972, 1.014, 0.10)
    assert (made.outside, made.ream_to) == pytest.approx((44.00, 44.20))
    assert wall_left(1.90, 42.094, made.ream_to) == pytest.approx(0.847)


def test_sleeve_grows_where_the_shell_needs_more_cleaning_up() -> None:
    made = sleeve(45.975, 1.0, 0.10, least_ream=48.60)
    assert made.ream_to == pytest.approx(48.60)
    assert made.wall == pytest.approx((48.40 - 45.975) / 2)


def test_sizes_over_draws() -> None:
    assert sleeve(np.array([45.97, 41.97]), 1.0, 0.1).outside == pytest.approx([47.97, 43.97])


def test_clean_up_and_cutting_through() -> None:
    assert clean_up(46.30, 46.26) == pytest.approx(0.04)
    assert wall_left(1.0, 46.0, 48.5) == pytest.approx(-0.25)


def test_a_sleeve_without_wall_is_refused() -> None:
    with pytest.raises(ValueError, match="least_wall"):
        sleeve(45.975, 0.0, 0.10)
    with pytest.raises(ValueError, match="bond_line"):
        sleeve(45.975, 1.0, -0.01)


def test_gap_for_a_compound() -> None:
    """Bearing of 41.994 in a bore of 42.003; turned cup of 41.995 in a bore of 42.124 at its widest."""
    assert gap(42.003, 41.994) == pytest.approx(0.009)
    assert gap_over_form(41.995, 42.094, 42.064, 42.124) == pytest.approx((0.099, 0.069, 0.129))
