"""Solid shaft of 100 mm shrunk into a sleeve of 150 mm.

Source: worked example of the page novasolver.jp/en/tools/shrink-fit-stress.html.
"""

import pytest

from recommender.mechanics.grip import torque_capacity
from recommender.mechanics.rings import Ring, hoop_stress_at_bore, stack_pressures

SHAFT = Ring(0.0, 50.0, 210_000.0, 0.3, 0.0)
SLEEVE = Ring(50.0, 75.0, 210_000.0, 0.3, 0.0)


def test_pressure_hoop_stress_and_torque() -> None:
    """Interference 0.1 mm, length 50 mm, friction 0.15: 58.33 MPa, 151.67 MPa, 6.872 kN m."""
    pressure = stack_pressures([SHAFT, SLEEVE], [0.1])[0]
    assert pressure == pytest.approx(58.33, rel=5e-4)
    assert hoop_stress_at_bore(SLEEVE, pressure, 0.0) == pytest.approx(151.67, rel=5e-4)
    assert torque_capacity(pressure, 0.15, 100.0, 50.0) == pytest.approx(6.872e6, rel=5e-4)
