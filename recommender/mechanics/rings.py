"""Concentric rings pressed into each other: pressures, hoop stress and strain, closing of a bore.

Source of all formulas: thick-cylinder equations (Lame), handbooks of machine design; for laminated rings see
`orthotropic`. Elastic, uniform walls, contact over the whole length, no friction round the circumference.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal

from recommender.mechanics import orthotropic
from recommender.mechanics.amount import Amount, middle, require_not_negative, require_positive
from recommender.mechanics.contact import Compliances, contact_pressures, require_interfaces
from recommender.mechanics.orthotropic import OrthotropicRing

Plane = Literal["stress", "strain"]


@dataclass(frozen=True)
class Ring:
    """One ring of a stack: radii (mm), modulus (MPa), Poisson's ratio, expansion (1/K); draws may differ.

    Inner radius 0 is a solid core. Raises ValueError where a draw has no wall, a negative radius or no
    modulus.
    """

    inner: Amount
    outer: Amount
    modulus: Amount
    poisson: Amount
    expansion: Amount

    def __post_init__(self) -> None:
        """Refuse a ring that cannot exist."""
        require_not_negative(inner_radius=self.inner)
        require_positive(wall=self.outer - self.inner, modulus=self.modulus)

    @property
    def of_numbers(self) -> bool:
        """Return whether nothing of the ring holds draws."""
        fields = (self.inner, self.outer, self.modulus, self.poisson, self.expansion)
        return all(isinstance(each, float) for each in fields)

    @cached_property
    def middle(self) -> "Ring":
        """Return the ring with the medians of its draws, without expansion, for formulas that solve one ring."""
        return Ring(middle(self.inner), middle(self.outer), middle(self.modulus), middle(self.poisson), 0.0)

    @cached_property
    def square_difference(self) -> Amount:
        """Return the difference of the squared radii (mm2)."""
        return self.outer**2 - self.inner**2

    @cached_property
    def thickness_term(self) -> Amount:
        """Return the sum of the squared radii over their difference: hoop stress at the bore per pressure inside."""
        return (self.outer**2 + self.inner**2) / self.square_difference

    @cached_property
    def compliances(self) -> Compliances:
        """Return how far bore and outside move outwards (mm) per MPa on either."""
        return Compliances(
            bore_by_bore=bore_compliance(self),
            bore_by_outside=-bore_cross_compliance(self),
            outside_by_bore=outside_cross_compliance(self),
            outside_by_outside=-outside_compliance(self),
        )


AnyRing = Ring | OrthotropicRing


def in_plane_strain(ring: Ring) -> Ring:
    """Return the ring with constants that make plane-stress formulas hold for a ring kept at its length."""
    return replace(
        ring,
        modulus=ring.modulus / (1 - ring.poisson**2),
        poisson=ring.poisson / (1 - ring.poisson),
        expansion=ring.expansion * (1 + ring.poisson),
    )


def bore_compliance(ring: Ring) -> Amount:
    """Return by how much the bore grows on the radius per MPa inside (mm/MPa)."""
    return ring.inner / ring.modulus * (ring.thickness_term + ring.poisson)


def outside_compliance(ring: Ring) -> Amount:
    """Return by how much the outside shrinks on the radius per MPa outside (mm/MPa), solid cores too."""
    return ring.outer / ring.modulus * (ring.thickness_term - ring.poisson)


def bore_cross_compliance(ring: Ring) -> Amount:
    """Return by how much the bore shrinks on the radius per MPa outside (mm/MPa)."""
    return 2 * ring.inner * ring.outer**2 / (ring.modulus * ring.square_difference)


def outside_cross_compliance(ring: Ring) -> Amount:
    """Return by how much the outside grows on the radius per MPa inside (mm/MPa)."""
    return 2 * ring.inner**2 * ring.outer / (ring.modulus * ring.square_difference)


def even_compliances(ring: AnyRing) -> Compliances:
    """Return how far a ring's bore and outside move outwards (mm) per MPa on either."""
    return orthotropic.compliances(ring) if isinstance(ring, OrthotropicRing) else ring.compliances


def stack_pressures(
    rings: Sequence[AnyRing],
    interferences: Sequence[Amount],
    temperature_change: Amount = 0.0,
    plane: Plane = "stress",
    outermost_stiffening: Amount = 1.0,
) -> list[Amount]:
    """Return the pressure (MPa) at each interface of a stack of rings, inside to outside.

    `interferences` are diametral (mm), one per interface, at the reference temperature; the change of
    temperature (K) is that of the whole stack. `outermost_stiffening` divides the bore compliance of the
    outermost ring (see `seat.pressure_factor`). Every interface is taken as closed, so a negative pressure is
    no tension: it says that this interface is loose, and the other pressures of that draw then hold only for
    a glued stack. Raises ValueError for fewer than two rings or a wrong count of interferences.
    """
    require_interfaces(len(rings), len(interferences))
    require_positive(outermost_stiffening=outermost_stiffening)
    held = [_held_at_length(ring) if plane == "strain" else ring for ring in rings]
    overlaps = [
        interference / 2 + (_outside_expansion(inner) - _bore_expansion(outer)) * outer.inner * temperature_change
        for inner, outer, interference in zip(held[:-1], held[1:], interferences, strict=True)
    ]
    *inner_parts, shell = [even_compliances(ring) for ring in held]
    stiffened = shell._replace(bore_by_bore=shell.bore_by_bore / outermost_stiffening)
    return contact_pressures([*inner_parts, stiffened], overlaps)


def pressures_per_mm(
    rings: Sequence[AnyRing], plane: Plane = "stress", outermost_stiffening: Amount = 1.0
) -> list[Amount]:
    """Return the pressure at each interface per mm of diametral interference at the outermost (MPa/mm)."""
    interferences: list[Amount] = [*[0.0] * (len(rings) - 2), 1.0]
    return stack_pressures(rings, interferences, 0.0, plane, outermost_stiffening)


def hoop_stress_at_bore(ring: AnyRing, p_inside: Amount, p_outside: Amount) -> Amount:
    """Return the hoop stress at the bore (MPa, tension positive); the ring must have a bore."""
    if isinstance(ring, OrthotropicRing):
        return orthotropic.hoop_stress_at_bore(ring, p_inside, p_outside)
    require_positive(inner_radius=ring.inner)
    return p_inside * ring.thickness_term - 2 * p_outside * ring.outer**2 / ring.square_difference


def hoop_strain_at_bore(ring: AnyRing, p_inside: Amount, p_outside: Amount) -> Amount:
    """Return the hoop strain at the bore caused by the pressures (a ratio, tension positive, not thermal)."""
    return (hoop_stress_at_bore(ring, p_inside, p_outside) + ring.poisson * p_inside) / ring.modulus


def bore_closure(ring: AnyRing, p_inside: Amount, p_outside: Amount) -> Amount:
    """Return by how much the bore's diameter shrinks under the pressures (mm, negative where it grows)."""
    return -2 * ring.inner * hoop_strain_at_bore(ring, p_inside, p_outside)


def _held_at_length(ring: AnyRing) -> AnyRing:
    return in_plane_strain(ring) if isinstance(ring, Ring) else orthotropic.held_at_length(ring)


def _bore_expansion(ring: AnyRing) -> Amount:
    return ring.expansion if isinstance(ring, Ring) else orthotropic.bore_expansion(ring)


def _outside_expansion(ring: AnyRing) -> Amount:
    return ring.expansion if isinstance(ring, Ring) else orthotropic.outside_expansion(ring)
