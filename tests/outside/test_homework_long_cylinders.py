"""Two long tubes shrunk together.

Source: question 300676 of wizedu.com, answer 16.9 MPa. That is plane strain (long tubes); the plane-stress
value of the same tubes, derived, is 15.63 MPa.
"""

import pytest

from recommender.mechanics.rings import Ring, stack_pressures

INNER = Ring(50.0, 75.025, 200_000.0, 0.28, 0.0)
OUTER = Ring(75.0, 150.0, 200_000.0, 0.28, 0.0)
DIAMETRAL = 0.050


def test_plane_strain_is_the_published_answer() -> None:
    pressure = stack_pressures([INNER, OUTER], [DIAMETRAL], plane="strain")[0]
    assert pressure == pytest.approx(16.9, abs=0.06)
    assert pressure == pytest.approx(16.95, abs=0.01)


def test_plane_stress_is_lower() -> None:
    assert stack_pressures([INNER, OUTER], [DIAMETRAL])[0] == pytest.approx(15.63, abs=0.01)
