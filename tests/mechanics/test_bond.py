"""Glued seats, by hand."""

import numpy as np
import pytest

from recommender.mechanics.bond import (
    GapClass,
    axial_strength,
    bond_area,
    design_strength,
    fills,
    least_length,
    peel_stress,
    torque_strength,
)
from recommender.mechanics.compound import gap_over_form
from recommender.mechanics.rings import Ring, stack_pressures

SLEEVE = Ring(21.5, 23.0, 69_000.0, 0.33, 23.4e-6)
CARBON = Ring(23.0, 26.0, 55_000.0, 0.30, 3e-6)
BEARING = Ring(19.8, 21.5, 208_000.0, 0.30, 12e-6)


def test_bond_never_lacks_strength() -> None:
    """10 MPa on 46 x 10 mm: 14.5 kN and 332 N m."""
    assert axial_strength(10.0, 46.0, 10.0) == pytest.approx(14_450, rel=0.005)
    assert torque_strength(10.0, 46.0, 10.0) == pytest.approx(332_000, rel=0.005)
    assert bond_area(46.0, 10.0) == pytest.approx(1445, rel=1e-3)


def test_strength_to_count_on() -> None:
    """20 MPa on the sheet, 0.6 for aluminium, 0.7 for the gap, 0.6 hot and wet: 5 MPa."""
    assert design_strength(20.0, 0.6, 0.7, 0.6) == pytest.approx(5.04)
    assert design_strength(20.0) == 20.0
    with pytest.raises(ValueError, match="between 0 and 1"):
        design_strength(20.0, 1.2)
    with pytest.raises(ValueError, match="between 0 and 1"):
        design_strength(20.0, np.array([0.6, 0.7, 1.2]))


def test_length_for_a_force() -> None:
    length = least_length(890.0, 3.0, 5.0, 46.0)
    assert length == pytest.approx(3.70, abs=0.01)
    assert axial_strength(5.0, 46.0, float(length)) == pytest.approx(3 * 890.0)


def test_sleeve_peels_in_the_cold() -> None:
    """Aluminium 1.5 mm in carbon 3 mm, 40 K colder than cured: 2.2 MPa of pull."""
    assert peel_stress([SLEEVE, CARBON], -40.0) == pytest.approx(2.2, abs=0.05)


def test_heat_presses_the_bond_together() -> None:
    assert peel_stress([SLEEVE, CARBON], 40.0) == 0.0
    assert peel_stress([SLEEVE, CARBON], np.array([-40.0, 0.0])) == pytest.approx([2.236, 0.0], abs=1e-3)


def test_a_bearing_in_the_sleeve_is_counted_from_inside() -> None:
    rings = [BEARING, SLEEVE, CARBON]
    assert peel_stress(rings, -40.0) == pytest.approx(-stack_pressures(rings, [0.0, 0.0], -40.0)[1])


@pytest.mark.parametrize(
    ("od", "filled"), [(45.95, True), (45.88, True), (45.84, False), (45.985, False), (46.01, False)]
)
def test_compound_must_fill_the_narrowest_and_the_widest_place(od: float, filled: bool) -> None:
    """Bore 45.98 to 46.00, class for gaps of 0.01 to 0.15 mm."""
    gap = gap_over_form(od, 45.99, 45.98, 46.00)
    assert fills(gap, GapClass(0.01, 0.15)).item() is filled
