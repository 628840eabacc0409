"""Disc of 750 mm on a solid shaft of 80 mm.

Source: askfilo.com, worked question "disc 750 mm on shaft 80 mm". Its pressure, 63.9 MPa, is right. Its hoop
stress at the disc's bore, -63.9 MPa, is wrong: that is the radial stress. A disc pressed outwards is in
tension round its bore, p (b2 + a2)/(b2 - a2) = +65.4 MPa.
"""

import pytest

from recommender.mechanics.rings import Ring, hoop_stress_at_bore, stack_pressures

SHAFT = Ring(0.0, 40.0, 207_000.0, 0.3, 0.0)
DISC = Ring(40.0, 375.0, 207_000.0, 0.3, 0.0)


def test_pressure_as_published() -> None:
    assert stack_pressures([SHAFT, DISC], [0.05])[0] == pytest.approx(63.9, abs=0.06)


def test_hoop_stress_is_tension_a_little_above_the_pressure() -> None:
    pressure = stack_pressures([SHAFT, DISC], [0.05])[0]
    assert hoop_stress_at_bore(DISC, pressure, 0.0) == pytest.approx(65.4, abs=0.06)
