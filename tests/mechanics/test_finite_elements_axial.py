"""Seats along their axis against finite elements: taper, contact at one end, short seats, edge of a stiff part.

Independent of the formulas: quadratic axisymmetric elements (scikit-fem), isotropic shell of 41 mm bore and 3 mm
wall, a part that does not give as one-sided support of the bore, no friction.
"""

from collections.abc import Callable
from typing import NamedTuple

import numpy as np
import pytest
import skfem
from numpy.typing import NDArray

from recommender.mechanics.rings import Ring, bore_compliance
from recommender.mechanics.seat import pressure_factor
from recommender.mechanics.strain import edge_bending_strain
from recommender.mechanics.taper import Fit, geometric_contact, mean_interference, pressure_at, real_contact

Array = NDArray[np.float64]
BORE, WALL, MODULUS, POISSON = 20.5, 3.0, 55_000.0, 0.3
LAME = MODULUS * POISSON / (1 + POISSON) / (1 - 2 * POISSON)
SHEAR = MODULUS / 2 / (1 + POISSON)
PER_MM = 0.5 / float(bore_compliance(Ring(BORE, BORE + WALL, MODULUS, POISSON, 0.0)))
MEAN_RADIUS = BORE + WALL / 2


class Seated(NamedTuple):
    """Depth of every node of the seat, its radial force per radian over the bore radius, and who touches."""

    depth: Array
    force: Array
    touching: NDArray[np.bool_]
    axial_at_bore: Array
    axial_at_outside: Array


def strains(u: skfem.DiscreteField, r: Array) -> tuple[Array, Array, Array, Array]:
    """Radial, hoop, axial and shear strain."""
    return u.grad[0][0], u[0] / r, u.grad[1][1], u.grad[0][1] + u.grad[1][0]


@skfem.BilinearForm
def work(u: skfem.DiscreteField, v: skfem.DiscreteField, w: skfem.assembly.form.form.FormExtraParams) -> Array:
    e, f = strains(u, w.x[0]), strains(v, w.x[0])
    direct = sum(a * b for a, b in zip(e[:3], f[:3], strict=True))
    return w.x[0] * (LAME * sum(e[:3]) * sum(f[:3]) + 2 * SHEAR * direct + SHEAR * e[3] * f[3])


def seated(axial: Array, length: float, demand: Callable[[Array], Array]) -> Seated:
    """Push the bore outwards over the seat (0 to `length`) by at least the demand (radial, mm)."""
    mesh = skfem.MeshQuad.init_tensor(np.linspace(BORE, BORE + WALL, 5), axial)
    basis = skfem.Basis(mesh, skfem.ElementVector(skfem.ElementQuad2()), intorder=4)
    stiffness = work.assemble(basis).tocsr()
    in_seat = basis.get_dofs(lambda x: np.isclose(x[0], BORE) & (x[1] > -1e-9) & (x[1] < length + 1e-9)).all("u^1")
    bore = in_seat[np.argsort(basis.doflocs[1, in_seat])]
    depth = basis.doflocs[1, bore]
    pin = basis.get_dofs(lambda x: np.isclose(x[1], axial[0])).all("u^2")[:1]
    wanted, touching = demand(depth), np.ones(len(bore), dtype=bool)
    for _ in range(60):
        moved = np.zeros(basis.N)
        moved[bore[touching]] = wanted[touching]
        fixed = np.concatenate([pin, bore[touching]])
        u = skfem.solve(*skfem.condense(stiffness, 0 * moved, x=moved, D=fixed))
        force = (stiffness @ u)[bore]
        now = np.where(touching, force > 0, u[bore] < wanted - 1e-12)
        if (now == touching).all():
            break
        touching = now
    else:
        pytest.fail("contact did not settle")
    return Seated(depth, np.where(touching, force, 0.0) / BORE, touching, *_linear_axial(basis, u))


def _linear_axial(basis: skfem.Basis, u: Array) -> tuple[Array, Array]:
    """Axial stress at bore and outside, made linear through the wall."""
    r, z = np.asarray(basis.global_coordinates())
    e = strains(basis.interpolate(u), r)
    stress = (LAME * sum(e[:3]) + 2 * SHEAR * e[2]).ravel()
    _, line = np.unique(np.round(z.ravel(), 9), return_inverse=True)
    weight = basis.dx.ravel()

    def mean(values: Array) -> Array:
        return np.bincount(line, weight * values) / np.bincount(line, weight)

    offset = r.ravel() - mean(r.ravel())[line]
    bending = mean(stress * offset) * 6 / np.sqrt(12 * mean(offset**2))
    return mean(stress) - bending, mean(stress) + bending


def tapered(mouth: float, bottom: float, length: float) -> Seated:
    """A seat as long as its shell; interferences on diameter."""
    return seated(np.linspace(0, length, 161), length, lambda z: (mouth + (bottom - mouth) * z / length) / 2)


def test_taper_presses_like_a_ring_at_every_depth() -> None:
    """0.020 to 0.060 mm over 20 mm: 4.374, 6.123, 7.873, 9.623 MPa in the middle of each quarter."""
    found, fit = tapered(0.020, 0.060, 20.0), Fit(0.020, 0.060, 20.0)
    weights = [np.clip(1 - np.abs(found.depth - middle) / 2.5, 0, None) for middle in (2.5, 7.5, 12.5, 17.5)]
    pressures = [float((found.force * weight).sum() / 2.5) for weight in weights]
    assert pressures == pytest.approx([4.374, 6.123, 7.873, 9.623], rel=1e-3)
    by_formula = [float(pressure_at(fit, depth, PER_MM)) for depth in (2.5, 7.5, 12.5, 17.5)]
    assert by_formula == pytest.approx([4.374, 6.123, 7.873, 9.623], rel=1e-3)
    assert found.touching.all()


@pytest.mark.parametrize(
    ("mouth", "length", "contact"), [(-0.02, 20.0, 10.75), (-0.06, 20.0, 5.4), (-0.02, 10.0, 4.6), (-0.06, 10.0, 0.7)]
)
def test_contact_at_one_end(mouth: float, length: float, contact: float) -> None:
    """0.060 mm tight at the bottom, loose at the mouth: the force as summed, on a shorter real contact."""
    found, fit = tapered(mouth, 0.060, length), Fit(mouth, 0.060, length)
    real = length - found.depth[found.touching].min()
    assert real == pytest.approx(contact, abs=0.1)
    bounds = real_contact(fit)
    assert bounds.least <= real <= bounds.most < geometric_contact(fit)
    summed = float(mean_interference(fit)) * length * PER_MM
    assert 0.92 * summed < found.force.sum() < summed


def short_seat(length: float, ends: int) -> Seated:
    """A seat of even interference in a shell that runs on beyond one or both ends."""
    beyond = np.geomspace(0.2, 45.0, 40)
    within = np.linspace(0, length, 57)
    parts = [within, length + beyond] if ends == 1 else [-beyond[::-1], within, length + beyond]
    return seated(np.concatenate(parts), length, lambda z: np.full(z.shape, 0.020))


@pytest.mark.parametrize(("length", "ends"), [(7.0, 2), (10.0, 2), (7.0, 1), (10.0, 1), (20.0, 1)])
def test_short_seats_press_harder(length: float, ends: int) -> None:
    found = short_seat(length, ends)
    factor = found.force.sum() / length / (0.040 * PER_MM)
    assert pressure_factor(length, ends, MEAN_RADIUS, WALL, 1.0, POISSON) == pytest.approx(factor, rel=0.02)


def test_edge_of_a_stiff_part_presses_the_wall_together() -> None:
    """Axial compression at the bore 0.93, tension outside 0.89 of hoop stress E x interference / diameter."""
    found = short_seat(20.0, 1)
    nominal = MODULUS * 0.020 / MEAN_RADIUS
    by_formula = MODULUS * float(edge_bending_strain(0.040, 2 * MEAN_RADIUS))
    assert -found.axial_at_bore.min() == pytest.approx(by_formula, rel=0.02)
    assert found.axial_at_outside.max() / nominal == pytest.approx(0.89, abs=0.01)
