"""Interference over form and temperature, derived."""

import pytest

from recommender.mechanics.interference import (
    interference,
    over_form,
    thermal_change,
    thermal_change_of_stack,
)
from recommender.mechanics.rings import Ring, pressures_per_mm, stack_pressures

STEEL = 12.0e-6
BEARING = Ring(19.8, 21.0, 208_000.0, 0.30, STEEL)
CARBON = Ring(23.0, 26.0, 55_000.0, 0.30, 3e-6)


def cup(modulus: float, poisson: float, expansion: float) -> Ring:
    """A cup of 2 mm wall on a 42 mm bearing."""
    return Ring(21.0, 23.0, modulus, poisson, expansion)


ALUMINIUM = cup(69_000.0, 0.33, 23.4e-6)
POLYMER = cup(3_000.0, 0.35, 110e-6)


def test_interference_by_hand() -> None:
    assert interference(46.032, 45.972) == pytest.approx(0.060)
    assert over_form(46.032, 45.972, 45.965, 45.980) == pytest.approx((0.060, 0.067, 0.052))


@pytest.mark.parametrize(
    ("inner", "outer", "change", "expected"),
    [
        (23.4e-6, 3e-6, -40.0, -0.0375),
        (23.4e-6, 3e-6, 30.0, 0.0282),
        (110e-6, 3e-6, -40.0, -0.1969),
        (110e-6, 3e-6, 30.0, 0.1477),
    ],
)
def test_one_material_cups(inner: float, outer: float, change: float, expected: float) -> None:
    assert thermal_change(46.0, inner, outer, change) == pytest.approx(expected, abs=1e-4)


@pytest.mark.parametrize(
    ("part", "change", "expected"),
    [
        (ALUMINIUM, -40.0, -0.0251),
        (ALUMINIUM, 30.0, 0.0188),
        (POLYMER, -40.0, -0.0413),
        (POLYMER, 30.0, 0.0309),
    ],
)
def test_cups_with_the_bearing_in(part: Ring, change: float, expected: float) -> None:
    """Ring steel of 12.0e-6/K, as the expected values were made with."""
    assert thermal_change_of_stack([BEARING, part, CARBON], change) == pytest.approx(expected, abs=1e-4)


def test_glass_filled_polymer_cup_with_the_bearing_in() -> None:
    assert thermal_change_of_stack([BEARING, cup(6_500.0, 0.35, 60e-6), CARBON], -40.0) == pytest.approx(
        -0.0305, abs=1e-4
    )


def test_two_ring_stack_is_the_one_material_formula() -> None:
    shell = Ring(21.0, 24.0, 55_000.0, 0.3, 3e-6)
    stack = thermal_change_of_stack([BEARING, shell], -40.0)
    assert stack == pytest.approx(thermal_change(42.0, STEEL, 3e-6, -40.0), rel=1e-12)
    assert stack == pytest.approx(-0.0151, abs=1e-4)


def test_steel_in_aluminium_loosens_hot() -> None:
    """Bearing straight in a bonded aluminium insert of 5 mm."""
    insert = Ring(21.0, 26.0, 69_000.0, 0.33, 23.4e-6)
    assert thermal_change_of_stack([BEARING, insert], 30.0) == pytest.approx(-0.0144, abs=1e-4)
    assert thermal_change_of_stack([BEARING, insert], -40.0) == pytest.approx(0.0192, abs=1e-4)


@pytest.mark.parametrize(("change", "expected"), [(-40.0, 4.0), (0.0, 6.6), (30.0, 8.6)])
def test_pressure_of_an_aluminium_cup_over_the_riding_range(change: float, expected: float) -> None:
    """Cup 0.05 mm tight in the shell, bearing 0.02 mm tight in the cup."""
    pressure = stack_pressures([BEARING, ALUMINIUM, CARBON], [0.02, 0.05], change)[-1]
    assert pressure == pytest.approx(expected, abs=0.05)


def test_equivalent_change_moves_the_pressure_as_heat_does() -> None:
    rings = [BEARING, POLYMER, CARBON]
    change = thermal_change_of_stack(rings, 25.0, "strain", 1.4)
    warmed = stack_pressures(rings, [0.03, 0.1], 25.0, "strain", 1.4)[-1]
    tightened = stack_pressures(rings, [0.03, 0.1 + change], 0.0, "strain", 1.4)[-1]
    assert warmed == pytest.approx(tightened, rel=1e-12)
    assert pressures_per_mm(rings, "strain", 1.4)[-1] > pressures_per_mm(rings)[-1]
