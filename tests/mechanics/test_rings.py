"""Rings: derived values (thick-cylinder equations recomputed by hand), bounds, arrays and refusals."""

import numpy as np
import pytest

from recommender.mechanics.rings import (
    Ring,
    bore_closure,
    bore_compliance,
    bore_cross_compliance,
    hoop_strain_at_bore,
    hoop_stress_at_bore,
    in_plane_strain,
    outside_compliance,
    outside_cross_compliance,
    pressures_per_mm,
    stack_pressures,
)

BEARING = Ring(19.8, 21.0, 208_000.0, 0.30, 12.0e-6)
ALUMINIUM_CUP = Ring(21.0, 23.0, 69_000.0, 0.33, 23.4e-6)
POLYMER_CUP = Ring(21.0, 23.0, 3_000.0, 0.35, 110e-6)
CARBON = Ring(23.0, 26.0, 55_000.0, 0.30, 3e-6)


def test_two_rings_share_the_interference_by_their_compliances() -> None:
    by_hand = 0.025 / (bore_compliance(CARBON) + outside_compliance(ALUMINIUM_CUP))
    assert stack_pressures([ALUMINIUM_CUP, CARBON], [0.05]) == pytest.approx([by_hand], rel=1e-12)


def test_bore_compliance_by_hand() -> None:
    assert bore_compliance(Ring(21.0, 24.0, 70_000.0, 0.30, 0.0)) * 10 == pytest.approx(0.023500, abs=1e-6)


def test_cross_compliances_obey_reciprocity() -> None:
    work_of_outside = outside_cross_compliance(CARBON) * CARBON.outer
    assert bore_cross_compliance(CARBON) * CARBON.inner == pytest.approx(work_of_outside, rel=1e-12)


def test_solid_core_under_pressure_shrinks_evenly() -> None:
    core = Ring(0.0, 40.0, 207_000.0, 0.3, 0.0)
    assert outside_compliance(core) == pytest.approx(40 / 207_000 * 0.7)


@pytest.mark.parametrize(
    ("modulus", "expected"), [(30_000.0, 64.9), (40_000.0, 82.3), (55_000.0, 105.5), (70_000.0, 125.7)]
)
def test_pressure_per_mm_under_doubt_of_the_carbon_modulus(modulus: float, expected: float) -> None:
    """Derived by script."""
    shell = Ring(23.0, 26.0, modulus, 0.30, 3e-6)
    assert pressures_per_mm([BEARING, ALUMINIUM_CUP, shell])[-1] == pytest.approx(expected, abs=0.06)


@pytest.mark.parametrize(("wall", "expected"), [(2.0, 83.0), (3.0, 107.0), (5.0, 138.0)])
def test_pressure_per_mm_of_a_bearing_straight_in_carbon(wall: float, expected: float) -> None:
    """Derived by script."""
    shell = Ring(21.0, 21.0 + wall, 55_000.0, 0.30, 3e-6)
    assert pressures_per_mm([BEARING, shell])[0] == pytest.approx(expected, abs=0.5)


def test_polymer_cup_is_soft_until_the_bearing_is_inside() -> None:
    """Derived by script."""
    assert pressures_per_mm([POLYMER_CUP, CARBON])[0] == pytest.approx(5.9, abs=0.06)
    assert pressures_per_mm([BEARING, POLYMER_CUP, CARBON])[-1] == pytest.approx(85.7, abs=0.1)


def test_bearing_seat_closes_when_the_bare_cup_is_pressed() -> None:
    """Derived by script: half the interference for aluminium, all of it for a polymer."""
    aluminium = bore_closure(ALUMINIUM_CUP, 0.0, pressures_per_mm([ALUMINIUM_CUP, CARBON])[0])
    polymer = bore_closure(POLYMER_CUP, 0.0, pressures_per_mm([POLYMER_CUP, CARBON])[0])
    assert (aluminium, polymer) == pytest.approx((0.51, 0.99), abs=0.01)


def test_direct_bearing_in_carbon_stresses_ring_and_shell() -> None:
    """Derived by script: 0.05 mm tight gives -96 MPa at the raceway, +40 MPa and 0.076 % in the shell."""
    shell = Ring(21.0, 24.0, 55_000.0, 0.30, 3e-6)
    pressure = stack_pressures([BEARING, shell], [0.05])[0]
    assert hoop_stress_at_bore(BEARING, 0.0, pressure) == pytest.approx(-96, abs=0.6)
    assert hoop_stress_at_bore(shell, pressure, 0.0) == pytest.approx(40, abs=0.6)
    assert hoop_strain_at_bore(shell, pressure, 0.0) == pytest.approx(0.00076, abs=5e-6)


def test_strain_is_displacement_over_radius() -> None:
    moved = bore_compliance(CARBON) * 4.0 - bore_cross_compliance(CARBON) * 1.5
    assert hoop_strain_at_bore(CARBON, 4.0, 1.5) == pytest.approx(moved / CARBON.inner, rel=1e-12)
    assert bore_closure(CARBON, 4.0, 1.5) == pytest.approx(-2 * moved, rel=1e-12)


def test_plane_strain_is_the_stress_form_with_other_constants() -> None:
    rings = [ALUMINIUM_CUP, CARBON]
    converted = stack_pressures([in_plane_strain(ring) for ring in rings], [0.05], 20.0)
    assert stack_pressures(rings, [0.05], 20.0, plane="strain") == pytest.approx(converted, rel=1e-12)


def test_cooling_a_loose_fit_gives_a_negative_pressure() -> None:
    assert stack_pressures([POLYMER_CUP, CARBON], [0.10], -40.0)[0] < 0


def test_stiffening_divides_only_the_shell() -> None:
    stiffer = pressures_per_mm([ALUMINIUM_CUP, CARBON], outermost_stiffening=2.0)[0]
    by_hand = 0.5 / (bore_compliance(CARBON) / 2 + outside_compliance(ALUMINIUM_CUP))
    assert stiffer == pytest.approx(by_hand, rel=1e-12)


def test_four_rings_meet_at_every_interface() -> None:
    outermost = Ring(26.0, 30.0, 70_000.0, 0.33, 23e-6)
    rings = [BEARING, ALUMINIUM_CUP, CARBON, outermost]
    overlaps = [0.02, 0.05, 0.01]
    pressures = [0.0, *stack_pressures(rings, overlaps), 0.0]
    for place, overlap in enumerate(overlaps):
        inner, outer = rings[place], rings[place + 1]
        inside, here, outside = pressures[place : place + 3]
        grown = bore_compliance(outer) * here - bore_cross_compliance(outer) * outside
        shrunk = outside_compliance(inner) * here - outside_cross_compliance(inner) * inside
        assert 2 * (grown + shrunk) == pytest.approx(overlap, rel=1e-9)


def test_draws_are_computed_one_by_one() -> None:
    walls = np.array([2.0, 3.0, 5.0])
    together = stack_pressures(
        [BEARING, Ring(21.0, 21.0 + walls, 55_000.0, 0.3, 3e-6)],
        [np.array([0.01, 0.02, 0.03])],
        np.array([0.0, 5.0, -5.0]),
    )[0]
    alone = [
        stack_pressures([BEARING, Ring(21.0, 21.0 + wall, 55_000.0, 0.3, 3e-6)], [tight], change)[0]
        for wall, tight, change in zip(walls, (0.01, 0.02, 0.03), (0.0, 5.0, -5.0), strict=True)
    ]
    assert together == pytest.approx(alone, rel=1e-12)


@pytest.mark.parametrize(
    ("inner", "outer", "modulus", "named"),
    [
        (-1.0, 2.0, 1.0, "inner_radius"),
        (3.0, 3.0, 1.0, "wall"),
        (1.0, 2.0, 0.0, "modulus"),
        (1.0, float("nan"), 1.0, "wall"),
    ],
)
def test_a_ring_that_cannot_exist_is_refused(inner: float, outer: float, modulus: float, named: str) -> None:
    with pytest.raises(ValueError, match=named):
        Ring(inner, outer, modulus, 0.3, 0.0)


def test_one_ring_or_a_missing_interference_is_refused() -> None:
    with pytest.raises(ValueError, match="at least two rings"):
        stack_pressures([CARBON], [])
    for wrong in ([], [0.02, 0.05]):
        with pytest.raises(ValueError, match="one interference per interface"):
            stack_pressures([BEARING, CARBON], wrong)
