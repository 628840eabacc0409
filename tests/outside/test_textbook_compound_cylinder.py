"""Compound cylinder of two tubes.

Source: machine-design textbook companion, set 764, chapter "Cylinders and Pressure Vessels", example 22.6
(public repository FOSSEE/Scilab-TBC-Uploads, folder 764/CH22).
"""

import pytest

from recommender.mechanics.rings import Ring, hoop_stress_at_bore, pressures_per_mm

TUBE = Ring(10.0, 20.0, 207_000.0, 0.3, 0.0)
JACKET = Ring(20.0, 30.0, 207_000.0, 0.3, 0.0)
ALLOWED = 100.0


def test_jacket_bore_for_the_allowed_hoop_stress() -> None:
    """Tubes 20/40 and 40/60 mm: shrinkage pressure 38.46 MPa, jacket bored to 39.968289 mm."""
    pressure = ALLOWED / hoop_stress_at_bore(JACKET, 1.0, 0.0)
    interference = pressure / pressures_per_mm([TUBE, JACKET])[0]
    assert pressure == pytest.approx(38.46, abs=0.005)
    assert 40.0 - interference == pytest.approx(39.968289, abs=1e-6)
