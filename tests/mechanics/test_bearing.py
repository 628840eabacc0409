"""Clearance and ring stress after pressing, derived."""

import pytest

from recommender.mechanics.bearing import clearance_left, closure_factor, oval_loss, ring_hoop_stress
from recommender.mechanics.oval import share_of_race
from recommender.mechanics.rings import Ring, pressures_per_mm, stack_pressures

BEARING = Ring(19.8, 21.0, 208_000.0, 0.30, 0.0)
ALUMINIUM_CUP = Ring(21.0, 23.0, 69_000.0, 0.33, 0.0)
POLYMER_CUP = Ring(21.0, 23.0, 3_000.0, 0.35, 0.0)
CARBON = Ring(23.0, 26.0, 55_000.0, 0.30, 0.0)


@pytest.mark.parametrize(("wall", "expected"), [(2.0, 0.285), (3.0, 0.367), (5.0, 0.474)])
def test_closure_of_a_bearing_straight_in_carbon(wall: float, expected: float) -> None:
    shell = Ring(21.0, 21.0 + wall, 55_000.0, 0.30, 0.0)
    assert closure_factor(BEARING, pressures_per_mm([BEARING, shell])[0]) == pytest.approx(expected, abs=0.001)


@pytest.mark.parametrize(("cup", "expected"), [(ALUMINIUM_CUP, 0.257), (POLYMER_CUP, 0.304)])
def test_closure_through_a_cup(cup: Ring, expected: float) -> None:
    assert closure_factor(BEARING, pressures_per_mm([BEARING, cup, CARBON])[0]) == pytest.approx(expected, abs=0.001)


@pytest.mark.parametrize(("cup", "expected"), [(ALUMINIUM_CUP, 0.50), (POLYMER_CUP, 0.31)])
def test_closure_by_a_tight_seat_in_the_cup(cup: Ring, expected: float) -> None:
    """Per mm of interference of the bearing in its cup, cup in carbon 3 mm."""
    pressure = stack_pressures([BEARING, cup, CARBON], [1.0, 0.0])[0]
    assert closure_factor(BEARING, pressure) == pytest.approx(expected, abs=0.015)


def test_slight_ovality_takes_the_whole_normal_clearance() -> None:
    """0.05 mm out of round in carbon 3 mm costs 19 um on the short axis."""
    share = share_of_race([BEARING, Ring(21.0, 24.0, 55_000.0, 0.30, 0.0)])
    assert oval_loss(0.050, share) == pytest.approx(0.019, abs=2e-4)


def test_clearance_left_by_hand() -> None:
    left = clearance_left(0.020, 0.25, 0.040, 0.5, 0.010, 0.003)
    assert left == pytest.approx(0.020 - 0.010 - 0.005 - 0.003)


def test_a_loose_fit_gives_no_clearance_back() -> None:
    assert clearance_left(0.020, 0.25, -0.040, 0.5, -0.010) == 0.020


def test_interference_at_which_the_ring_reaches_its_stress_limit() -> None:
    """127 MPa at 0.066 mm for a ring straight in carbon 3 mm."""
    per_mm = pressures_per_mm([BEARING, Ring(21.0, 24.0, 55_000.0, 0.30, 0.0)])[0]
    assert ring_hoop_stress(BEARING, 0.066 * per_mm) == pytest.approx(-127, abs=1)
