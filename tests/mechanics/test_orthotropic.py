"""Laminated rings: formulas checked by finite elements, the isotropic limit, free growth, refusals."""

from dataclasses import replace

import numpy as np
import pytest

from recommender.mechanics import rings
from recommender.mechanics.orthotropic import (
    Direction,
    OrthotropicRing,
    bore_expansion,
    compliances,
    held_at_length,
    hoop_stress_at_bore,
    hoop_stress_at_outside,
    outside_expansion,
)
from recommender.mechanics.rings import Plane, Ring, hoop_strain_at_bore, pressures_per_mm, stack_pressures

BEARING = Ring(19.8, 21.0, 208_000.0, 0.30, 12.0e-6)
CUP = Ring(21.0, 23.0, 69_000.0, 0.33, 23.4e-6)


def ring(inner: float, outer: float, radial: float, hoop: float, along: float = 55_000.0) -> OrthotropicRing:
    """A ring of a laminate that expands more through its wall than in its plane; every Poisson's ratio 0.3."""
    return OrthotropicRing(
        inner,
        outer,
        Direction(hoop, 2.5e-6),
        Direction(radial, 30e-6),
        Direction(along, 2.5e-6),
        0.3,
        0.3,
        0.3,
    )


def test_soft_through_the_wall_under_10_mpa() -> None:
    """21/24 mm, 10 GPa through the wall and 55 GPa round it; finite elements agree to 2e-6."""
    laminate = ring(21.0, 24.0, 10e3, 55e3)
    assert compliances(laminate).bore_by_bore * 10 == pytest.approx(0.030668, rel=1e-4)
    assert hoop_stress_at_bore(laminate, 10.0, 0.0) == pytest.approx(77.321, rel=1e-4)
    assert hoop_stress_at_outside(laminate, 10.0, 0.0) == pytest.approx(64.469, rel=1e-4)


def test_held_at_its_length() -> None:
    held = held_at_length(ring(21.0, 24.0, 10e3, 55e3))
    assert compliances(held).bore_by_bore * 10 == pytest.approx(0.028423, rel=1e-4)
    assert hoop_stress_at_bore(held, 10.0, 0.0) == pytest.approx(77.516, rel=1e-4)


@pytest.mark.parametrize(("hoop", "radial", "expected"), [(55e3, 10e3, 50.67), (70e3, 70e3, 47.53)])
def test_a_thicker_wall_peaks_more_at_its_bore(hoop: float, radial: float, expected: float) -> None:
    """21/26 mm: 7 % above the isotropic ring."""
    assert hoop_stress_at_bore(ring(21.0, 26.0, radial, hoop), 10.0, 0.0) == pytest.approx(expected, abs=0.005)


def test_equal_moduli_are_the_isotropic_ring() -> None:
    laminate, plain = ring(21.0, 24.0, 70e3, 70e3, 70e3), Ring(21.0, 24.0, 70e3, 0.3, 2.5e-6)
    assert compliances(laminate) == pytest.approx(rings.even_compliances(plain), rel=1e-12)
    assert hoop_strain_at_bore(laminate, 4.0, 1.5) == pytest.approx(hoop_strain_at_bore(plain, 4.0, 1.5))
    expanding = replace(laminate, radial=Direction(70e3, 2.5e-6))
    planes: tuple[Plane, Plane] = ("stress", "strain")
    for plane in planes:
        laminated = stack_pressures([BEARING, expanding], [0.02], 10.0, plane=plane)
        assert laminated == pytest.approx(stack_pressures([BEARING, plain], [0.02], 10.0, plane=plane))


def test_in_a_stack_the_soft_wall_gives_a_little_less_pressure() -> None:
    """Thin wall: within 3 % of the isotropic ring with its hoop modulus."""
    isotropic = pressures_per_mm([BEARING, CUP, Ring(23.0, 26.0, 55e3, 0.3, 0.0)])[-1]
    laminated = pressures_per_mm([BEARING, CUP, ring(23.0, 26.0, 10e3, 55e3)])[-1]
    assert 0.97 * isotropic < laminated < isotropic


def test_a_wall_that_swells_through_its_thickness_closes_its_bore() -> None:
    """Of the 2.5e-6 round the ring a bore keeps a quarter; even expansion leaves the shape as it is."""
    laminate = ring(21.0, 24.0, 10e3, 55e3)
    assert bore_expansion(laminate) == pytest.approx(0.595e-6, rel=1e-3)
    assert outside_expansion(laminate) == pytest.approx(4.243e-6, rel=1e-3)
    even = replace(laminate, radial=Direction(10e3, 2.5e-6))
    assert (bore_expansion(even), outside_expansion(even)) == pytest.approx((2.5e-6, 2.5e-6))
    isotropic = ring(21.0, 24.0, 70e3, 70e3)
    assert bore_expansion(isotropic) == pytest.approx(0.5823e-6, rel=1e-3)


def test_pressures_do_reciprocal_work() -> None:
    parts = compliances(ring(21.0, 24.0, 10e3, 55e3))
    assert -parts.bore_by_outside * 21.0 == pytest.approx(parts.outside_by_bore * 24.0, rel=1e-12)


def test_draws_are_computed_one_by_one() -> None:
    moduli = np.array([30e3, 55e3, 70e3])
    together = OrthotropicRing(
        23.0, 26.0, Direction(moduli, 0.0), Direction(10e3, 0.0), Direction(55e3, 0.0), 0.3, 0.3, 0.3
    )
    alone = [pressures_per_mm([BEARING, CUP, ring(23.0, 26.0, 10e3, modulus)])[-1] for modulus in moduli]
    assert pressures_per_mm([BEARING, CUP, together])[-1] == pytest.approx(alone, rel=1e-12)


@pytest.mark.parametrize(
    ("inner", "outer", "radial", "named"),
    [(0.0, 24.0, 10e3, "inner_radius"), (24.0, 24.0, 10e3, "wall"), (21.0, 24.0, 0.0, "radial_modulus")],
)
def test_a_ring_that_cannot_exist_is_refused(inner: float, outer: float, radial: float, named: str) -> None:
    with pytest.raises(ValueError, match=named):
        ring(inner, outer, radial, 55e3)
