"""Parallel part in a tapered bore, by hand; compared with finite elements in their own file."""

import numpy as np
import pytest

from recommender.mechanics.grip import axial_capacity
from recommender.mechanics.taper import (
    Fit,
    geometric_contact,
    mean_interference,
    pressure_at,
    push_in_along,
    pushed_in,
    real_contact,
    rocking_angle,
    self_ejection,
    touches_throughout,
)

TAPERED = Fit(0.020, 0.060, 20.0)
ONE_ENDED = Fit(-0.020, 0.060, 20.0)
LOOSE = Fit(-0.030, -0.010, 20.0)


def test_tight_all_along_is_as_its_middle() -> None:
    assert mean_interference(TAPERED) == pytest.approx(0.040)
    assert geometric_contact(TAPERED) == 20.0
    assert real_contact(TAPERED) == (20.0, 20.0)
    assert touches_throughout(TAPERED)


@pytest.mark.parametrize("fit", [ONE_ENDED, Fit(0.060, -0.020, 20.0)])
def test_loose_at_one_end_holds_on_the_triangle_that_is_left(fit: Fit) -> None:
    """15 of 20 mm overlap, 0.060 mm at their end: 0.45 mm2 over 20 mm."""
    assert geometric_contact(fit) == pytest.approx(15.0)
    assert mean_interference(fit) == pytest.approx(0.060 / 2 * 15 / 20)
    assert not touches_throughout(fit)
    assert real_contact(fit) == pytest.approx((1.95, 10.8))


def test_loose_everywhere_holds_nowhere() -> None:
    assert (mean_interference(LOOSE), geometric_contact(LOOSE)) == (0.0, 0.0)
    assert real_contact(LOOSE) == (0.0, 0.0)
    assert pressure_at(LOOSE, 10.0, 175.0) == 0.0


def test_parallel_bore_is_the_plain_case() -> None:
    parallel = Fit(0.040, 0.040, 10.0)
    assert (mean_interference(parallel), geometric_contact(parallel)) == (0.040, 10.0)
    assert push_in_along(parallel, 10.0, 150.0, 0.15, 46.0) == pytest.approx(axial_capacity(6.0, 0.15, 46.0, 10.0))
    assert push_in_along(parallel, 5.0, 150.0, 0.15, 46.0) == pytest.approx(axial_capacity(6.0, 0.15, 46.0, 5.0))


def test_force_along_the_stroke_speaks_of_the_taper() -> None:
    """A bore that narrows inwards takes three eighths of the end's force at half its depth, not half of it."""
    assert pushed_in(TAPERED, 10.0) / pushed_in(TAPERED, 20.0) == pytest.approx(0.3 / 0.8)
    assert pushed_in(ONE_ENDED, 5.0) == 0.0
    assert pushed_in(ONE_ENDED, np.array([5.0, 20.0])) == pytest.approx([0.0, 0.45])


def test_slope_of_the_wall_adds_to_the_push_but_hardly_ejects() -> None:
    """0.04 mm over 10 mm against a friction of 0.12: 1.7 % of the hold."""
    steep = Fit(0.020, 0.060, 10.0)
    assert self_ejection(steep, 0.12) == pytest.approx(0.0167, abs=5e-5)
    plain = axial_capacity(0.040 * 150.0, 0.12, 46.0, 10.0)
    assert push_in_along(steep, 10.0, 150.0, 0.12, 46.0) == pytest.approx(plain * (0.12 + 0.002) / 0.12)


def test_a_bore_that_widens_inwards_gives_nothing_back_of_the_friction() -> None:
    """Its wall slopes away from the part, whose force is then that of friction on the mean interference."""
    widening = Fit(0.060, 0.020, 10.0)
    plain = axial_capacity(0.040 * 150.0, 0.12, 46.0, 10.0)
    assert push_in_along(widening, 10.0, 150.0, 0.12, 46.0) == pytest.approx(plain)


def test_a_part_held_at_one_end_rocks() -> None:
    """Gap of 0.020 mm over 20 mm: a thousandth, 3.4 arcmin."""
    assert rocking_angle(ONE_ENDED) == pytest.approx(3.44, abs=0.01)
    assert rocking_angle(TAPERED) == 0.0


def test_draws_are_computed_one_by_one() -> None:
    fits = Fit(np.array([0.02, -0.02, -0.03]), np.array([0.06, 0.06, -0.01]), 20.0)
    assert mean_interference(fits) == pytest.approx([0.040, 0.0225, 0.0])
    assert touches_throughout(fits).tolist() == [True, False, False]


def test_a_seat_without_length_is_refused() -> None:
    with pytest.raises(ValueError, match="length"):
        mean_interference(Fit(0.02, 0.06, 0.0))
    with pytest.raises(ValueError, match="friction"):
        self_ejection(TAPERED, 0.0)
