"""Fit of a ball bearing's outer ring.

Source: general bearing catalogue "Ball and Roller Bearings", sections 7.3.3 and 8.2.2, table 8.7 (effect of
interference on clearance, mean raceway diameter, pressure in a steel housing), table 14.6 (misalignment).
"""

import pytest

from recommender.mechanics.alignment import seat_angle
from recommender.mechanics.bearing import closure_factor, mean_raceway_diameter, temperature_loss
from recommender.mechanics.rings import Ring, pressures_per_mm

STEEL = 208_000.0
BORE, OUTSIDE = 30.0, 42.0
RACEWAY = 39.6


def ring() -> Ring:
    """Outer ring of a 30 x 42 x 7 bearing as a tube from raceway to outside."""
    return Ring(float(mean_raceway_diameter(BORE, OUTSIDE)) / 2, OUTSIDE / 2, STEEL, 0.3, 0.0)


def housing(outside: float) -> Ring:
    """Steel housing of the catalogue's own material."""
    return Ring(OUTSIDE / 2, outside / 2, STEEL, 0.3, 0.0)


def catalogue_closure(outside: float) -> float:
    """Closure factor as the catalogue prints it."""
    raceway, wall = RACEWAY / OUTSIDE, (OUTSIDE / outside) ** 2
    return raceway * (1 - wall) / (1 - raceway**2 * wall)


def catalogue_pressure(outside: float) -> float:
    """Pressure per mm of interference as the catalogue prints it."""
    raceway, wall = (RACEWAY / OUTSIDE) ** 2, (OUTSIDE / outside) ** 2
    return STEEL / (2 * OUTSIDE) * (1 - raceway) * (1 - wall) / (1 - raceway * wall)


@pytest.mark.parametrize(("bore", "outside", "raceway"), [(30.0, 42.0, 39.6), (25.0, 37.0, 34.6)])
def test_mean_raceway(bore: float, outside: float, raceway: float) -> None:
    assert mean_raceway_diameter(bore, outside) == pytest.approx(raceway)


def test_closure_factor_and_pressure_in_a_60_mm_housing() -> None:
    per_mm = pressures_per_mm([ring(), housing(60.0)])[0]
    assert closure_factor(ring(), per_mm) == pytest.approx(0.85198, rel=1e-4)
    assert per_mm == pytest.approx(248.4, rel=1e-3)


@pytest.mark.parametrize("outside", [46.0, 52.0, 60.0, 90.0, 500.0])
def test_stack_is_the_catalogue_formula_in_steel(outside: float) -> None:
    per_mm = pressures_per_mm([ring(), housing(outside)])[0]
    assert per_mm == pytest.approx(catalogue_pressure(outside), rel=1e-9)
    assert closure_factor(ring(), per_mm) == pytest.approx(catalogue_closure(outside), rel=1e-9)


def test_thumb_rule_holds_for_rigid_steel_only() -> None:
    """The catalogue's 70 to 90 % is for heavy steel; a 3 mm carbon shell closes the ring far less."""
    heavy = closure_factor(ring(), pressures_per_mm([ring(), housing(70.0)])[0])
    carbon = Ring(21.0, 24.0, 55_000.0, 0.3, 0.0)
    thin = closure_factor(ring(), pressures_per_mm([ring(), carbon])[0])
    assert 0.70 <= heavy <= 0.90
    assert 0.25 <= thin <= 0.45


@pytest.mark.parametrize(("slope", "minutes"), [(1 / 1000, 3.4), (1 / 300, 11.5)])
def test_permissible_misalignment_in_minutes(slope: float, minutes: float) -> None:
    assert seat_angle(slope * 61.0, 61.0) == pytest.approx(minutes, abs=0.05)


def test_warm_inner_ring_takes_clearance() -> None:
    """12.5e-6 x 10 K x 39.6 mm: 5 um."""
    assert temperature_loss(RACEWAY, 10.0, 12.5e-6) == pytest.approx(0.00495)
