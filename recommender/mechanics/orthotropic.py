"""A ring whose stiffness differs round it, through its wall and along its axis, as in a wound laminate.

Source: cylindrically orthotropic ring, anisotropic elasticity of plates; plane stress. Elastic, uniform wall,
even pressure. The free growth with temperature follows from the reciprocal theorem.
"""

from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from recommender.mechanics.amount import Amount, require_positive
from recommender.mechanics.contact import Compliances


class Direction(NamedTuple):
    """Modulus (MPa) and expansion (1/K) in one direction of a material."""

    modulus: Amount
    expansion: Amount


@dataclass(frozen=True)
class OrthotropicRing:
    """A laminated ring: radii (mm) and what its material does round, through and along the wall.

    `poisson` is the radial contraction per hoop strain, `axial_radial` and `axial_hoop` the radial and hoop
    contraction per axial strain. Raises ValueError where a draw has no bore, no wall or no modulus.
    """

    inner: Amount
    outer: Amount
    hoop: Direction
    radial: Direction
    axial: Direction
    poisson: Amount
    axial_radial: Amount
    axial_hoop: Amount

    def __post_init__(self) -> None:
        """Refuse a ring that cannot exist."""
        require_positive(
            inner_radius=self.inner,
            wall=self.outer - self.inner,
            hoop_modulus=self.hoop.modulus,
            radial_modulus=self.radial.modulus,
            axial_modulus=self.axial.modulus,
        )

    @property
    def modulus(self) -> Amount:
        """Modulus round the ring (MPa)."""
        return self.hoop.modulus


def held_at_length(ring: OrthotropicRing) -> OrthotropicRing:
    """Return the ring with constants that make plane-stress formulas hold for a ring kept at its length."""
    along = ring.axial.modulus
    hoop = 1 / (1 / ring.hoop.modulus - ring.axial_hoop**2 / along)
    radial = 1 / (1 / ring.radial.modulus - ring.axial_radial**2 / along)
    cross = ring.poisson / ring.hoop.modulus + ring.axial_radial * ring.axial_hoop / along
    return replace(
        ring,
        hoop=Direction(hoop, ring.hoop.expansion + ring.axial_hoop * ring.axial.expansion),
        radial=Direction(radial, ring.radial.expansion + ring.axial_radial * ring.axial.expansion),
        poisson=cross * hoop,
    )


def compliances(ring: OrthotropicRing) -> Compliances:
    """Return how far bore and outside move outwards (mm) per MPa on either."""
    bore = ring.inner / ring.hoop.modulus
    outside = ring.outer / ring.hoop.modulus
    by_bore, by_outside = _hoop_by_bore(ring), _hoop_by_outside(ring)
    return Compliances(
        bore_by_bore=bore * (by_bore.at_bore + ring.poisson),
        bore_by_outside=-bore * by_outside.at_bore,
        outside_by_bore=outside * by_bore.at_outside,
        outside_by_outside=-outside * (by_outside.at_outside - ring.poisson),
    )


def hoop_stress_at_bore(ring: OrthotropicRing, p_inside: Amount, p_outside: Amount) -> Amount:
    """Return the hoop stress at the bore (MPa, tension positive)."""
    return p_inside * _hoop_by_bore(ring).at_bore - p_outside * _hoop_by_outside(ring).at_bore


def hoop_stress_at_outside(ring: OrthotropicRing, p_inside: Amount, p_outside: Amount) -> Amount:
    """Return the hoop stress at the outside (MPa, tension positive)."""
    return p_inside * _hoop_by_bore(ring).at_outside - p_outside * _hoop_by_outside(ring).at_outside


def bore_expansion(ring: OrthotropicRing) -> Amount:
    """Return by how much the free ring's bore grows per kelvin (a ratio).

    A wall that expands more through its thickness than round itself pushes its bore inwards.
    """
    unequal = ring.radial.expansion - ring.hoop.expansion
    ratio, k = ring.outer / ring.inner, _anisotropy(ring)
    through = (_rise(ratio, k + 1) - ratio ** (2 * k) * _rise(ratio, 1 - k)) / (ratio ** (2 * k) - 1)
    return ring.hoop.expansion + unequal * through


def outside_expansion(ring: OrthotropicRing) -> Amount:
    """Return by how much the free ring's outside grows per kelvin (a ratio)."""
    unequal = ring.radial.expansion - ring.hoop.expansion
    ratio, k = ring.outer / ring.inner, _anisotropy(ring)
    through = ratio ** (k - 1) * (_rise(ratio, k + 1) - _rise(ratio, 1 - k)) / (ratio ** (2 * k) - 1)
    return ring.hoop.expansion + unequal * through


class _Hoop(NamedTuple):
    """Size of the hoop stress at bore and outside per MPa of pressure."""

    at_bore: Amount
    at_outside: Amount


def _anisotropy(ring: OrthotropicRing) -> Amount:
    root: Amount = np.sqrt(ring.hoop.modulus / ring.radial.modulus)
    return root


def _hoop_by_bore(ring: OrthotropicRing) -> _Hoop:
    k, c = _anisotropy(ring), ring.inner / ring.outer
    scale = k / (1 - c ** (2 * k))
    return _Hoop(scale * (1 + c ** (2 * k)), scale * 2 * c ** (k + 1))


def _hoop_by_outside(ring: OrthotropicRing) -> _Hoop:
    k, c = _anisotropy(ring), ring.inner / ring.outer
    scale = k / (1 - c ** (2 * k))
    return _Hoop(scale * 2 * c ** (k - 1), scale * (1 + c ** (2 * k)))


def _rise(ratio: Amount, power: Amount) -> Amount:
    """Return (ratio^power - 1) / power, which is log(ratio) where the power vanishes."""
    flat = np.asarray(power) == 0
    safe = np.where(flat, 1.0, power)
    risen: Amount = np.where(flat, np.log(ratio), np.expm1(safe * np.log(ratio)) / safe)
    return risen
