"""Pressing a steel bush of 44 mm into its housing.

Source: a plain-bearing maker's page "Press-in force and joint pressure", example: wall 2 mm, fit of DIN ISO 3547,
340 N per mm of width, 30 mm wide: 10 200 N.
"""

import pytest

from recommender.mechanics.grip import pressure_from_push_in, push_in_force

FORCE, DIAMETER, WIDTH = 10_200.0, 44.0, 30.0


def test_force_gives_friction_times_pressure() -> None:
    """2.46 MPa."""
    assert pressure_from_push_in(FORCE, 1.0, DIAMETER, WIDTH) == pytest.approx(2.46, abs=0.005)


@pytest.mark.parametrize(("friction", "pressure"), [(0.12, 20.5), (0.20, 12.3)])
def test_doubt_of_friction_is_doubt_of_pressure(friction: float, pressure: float) -> None:
    assert pressure_from_push_in(FORCE, friction, DIAMETER, WIDTH) == pytest.approx(pressure, abs=0.05)


def test_force_grows_with_every_millimetre_of_width() -> None:
    pressure = pressure_from_push_in(FORCE, 0.15, DIAMETER, WIDTH)
    assert push_in_force(pressure, 0.15, DIAMETER, 1.0) == pytest.approx(340.0)
