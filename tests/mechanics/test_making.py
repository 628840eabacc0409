"""The part to make, by hand."""

import pytest

from recommender.mechanics.making import (
    cup_wall,
    lead_in,
    seat_before,
    seat_closing,
    stiffness_left,
    target,
    wall_for_pressure,
)
from recommender.mechanics.rings import Ring, stack_pressures
from recommender.mechanics.window import Window

CARBON = Ring(23.0, 26.0, 55_000.0, 0.30, 3e-6)
WINDOW = Window(46.000, 46.060, "grip", "strain")


@pytest.mark.parametrize(
    ("wanted", "expected"),
    [(46.030, (46.025, 46.035)), (45.990, (46.002, 46.012)), (46.080, (46.048, 46.058))],
)
def test_target_stays_where_it_is_wanted_as_far_as_the_window_goes(
    wanted: float, expected: tuple[float, float]
) -> None:
    assert target(WINDOW, wanted, 0.010, 0.002) == pytest.approx(expected)


def test_a_window_narrower_than_the_tolerance_has_no_target() -> None:
    """IT7 of 25 um and a gauge of 3 um twice need 31 um."""
    assert target(Window(46.0, 46.0309, "a", "b"), 46.015, 0.025, 0.003) is None
    assert target(Window(46.0, 46.0311, "a", "b"), 46.015, 0.025, 0.003) is not None
    assert target(Window(46.1, 46.0, "a", "b"), 46.05, 0.010) is None


def test_lead_in_starts_in_the_narrowest_place() -> None:
    """46.032 in 45.960, 0.04 mm of slip, 10 degrees: 0.056 mm on the radius, 0.318 mm long."""
    made = lead_in(46.032, 45.960, 0.040, 10.0)
    assert made == pytest.approx((45.920, 0.3176), abs=1e-4)
    assert lead_in(45.9, 46.0, 0.040, 10.0) == (45.9, 0.0)
    for angle in (0.0, 90.0, 90.5, -10.0):
        with pytest.raises(ValueError, match="chamfer"):
            lead_in(46.0, 45.9, 0.0, angle)


@pytest.mark.parametrize(("modulus", "poisson", "expected"), [(69_000.0, 0.33, 0.51), (3_000.0, 0.35, 0.99)])
def test_bare_cup_closes_its_bearing_seat(modulus: float, poisson: float, expected: float) -> None:
    """Aluminium by half the interference, polymer by all of it."""
    cup = Ring(21.0, 23.0, modulus, poisson, 0.0)
    assert seat_closing([cup, CARBON]) == pytest.approx(expected, abs=0.01)


def test_seat_bored_open_is_right_after_pressing() -> None:
    cup = Ring(21.0, 23.0, 69_000.0, 0.33, 0.0)
    before = float(seat_before(41.985, 0.040, seat_closing([cup, CARBON])))
    pressure = stack_pressures([cup, CARBON], [0.040])[0]
    hoop = -2 * pressure * 23.0**2 / (23.0**2 - 21.0**2)
    assert before + hoop / 69_000.0 * 42.0 == pytest.approx(41.985, abs=1e-6)
    assert seat_before(41.985, -0.010, 0.51) == 41.985


def test_walls() -> None:
    assert cup_wall(46.032, 41.985) == pytest.approx(2.0235)
    assert wall_for_pressure(5.5, 1.0, 46.0, 55_000.0, 0.003) == pytest.approx(0.77, abs=0.005)
    assert wall_for_pressure(5.5, 3.1, 46.0, 55_000.0, 0.003) == pytest.approx(2.4, abs=0.05)
    assert stiffness_left(3.0, 2.0) == pytest.approx((0.667, 0.296), abs=1e-3)
