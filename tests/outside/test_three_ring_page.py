"""Three rings of steel, aluminium and steel with pressure inside and outside, at speed.

Source: quick example of the page eng-tools.dev/series-a/a3-thick-walled-cylinder, after a 2009 journal paper.
The page calls its 0.010 and 0.025 mm "interference" without saying of what: they are radial. Taken on
diameter, the pressures on the page do not come out.
"""

import pytest

from recommender.mechanics.rings import (
    Ring,
    bore_cross_compliance,
    outside_cross_compliance,
    stack_pressures,
)

INNER = Ring(10.0, 14.995, 206_000.0, 0.29, 0.0)
MIDDLE = Ring(14.995, 24.988, 70_000.0, 0.33, 0.0)
OUTER = Ring(24.988, 35.0, 206_000.0, 0.29, 0.0)
STEEL, ALUMINIUM = 7.850e-9, 2.770e-9  # t/mm3
SPEED = 420.0  # rad/s
RADIAL = (0.010, 0.025)


def growth_at_bore(ring: Ring, density: float) -> float:
    """How far a free rotating ring's bore moves outwards (mm)."""
    nu, a, b = float(ring.poisson), float(ring.inner), float(ring.outer)
    return density * SPEED**2 * a / (4 * float(ring.modulus)) * ((3 + nu) * b**2 + (1 - nu) * a**2)


def growth_at_outside(ring: Ring, density: float) -> float:
    """How far a free rotating ring's outside moves outwards (mm)."""
    nu, a, b = float(ring.poisson), float(ring.inner), float(ring.outer)
    return density * SPEED**2 * b / (4 * float(ring.modulus)) * ((3 + nu) * a**2 + (1 - nu) * b**2)


def pressures(radial: tuple[float, float], at_speed: bool) -> list[float]:
    """Superpose the pressures on bore and outside, and the growth by rotation, as changes of interference."""
    first = radial[0] + 30.0 * float(outside_cross_compliance(INNER))
    second = radial[1] + 150.0 * float(bore_cross_compliance(OUTER))
    if at_speed:
        first += growth_at_outside(INNER, STEEL) - growth_at_bore(MIDDLE, ALUMINIUM)
        second += growth_at_outside(MIDDLE, ALUMINIUM) - growth_at_bore(OUTER, STEEL)
    return [float(pressure) for pressure in stack_pressures([INNER, MIDDLE, OUTER], [2 * first, 2 * second])]


def test_contact_pressures_as_published() -> None:
    """175.0 MPa between inner and middle ring, 161.4 MPa between middle and outer ring."""
    assert pressures(RADIAL, at_speed=True) == pytest.approx([175.0, 161.4], abs=0.1)


def test_contact_pressures_at_rest() -> None:
    """Derived: 175.31 and 161.63 MPa."""
    assert pressures(RADIAL, at_speed=False) == pytest.approx([175.31, 161.63], abs=0.01)


def test_diametral_reading_of_the_table_does_not_reproduce_the_page() -> None:
    on_diameter = pressures((RADIAL[0] / 2, RADIAL[1] / 2), at_speed=True)
    assert all(abs(got - page) > 10 for got, page in zip(on_diameter, (175.0, 161.4), strict=True))
