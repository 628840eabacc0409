"""Out-of-round bores: how nested rings share two or more lobes.

Source: plane elasticity, Airy stress function in polar coordinates (theory of elasticity), plane stress, no
friction, whole contact kept. Amplitudes are radial: a two-lobe bore of amplitude e has an ovality of 4 e on
diameter.
"""

from collections.abc import Sequence
from functools import lru_cache
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from recommender.mechanics.amount import Amount, require_positive
from recommender.mechanics.contact import Compliances, contact_pressures
from recommender.mechanics.rings import Ring, even_compliances

Contact = Literal["kept", "cannot_be_told", "lost"]


class _Terms(NamedTuple):
    """The four powers of the stress function and their weights per unit pressure on bore and outside."""

    powers: NDArray[np.float64]
    weights: NDArray[np.float64]


def compliances(ring: Ring, lobes: int = 2) -> Compliances:
    """Return the radial amplitudes (mm/MPa) of a ring under lobed pressures on its bore and outside."""
    return _of_numbers(ring, lobes) if ring.of_numbers else _compliances(ring, lobes)


@lru_cache(maxsize=256)
def _of_numbers(ring: Ring, lobes: int) -> Compliances:
    return Compliances(*map(float, _compliances(ring, lobes)))


def _compliances(ring: Ring, lobes: int) -> Compliances:
    terms = _solve(ring, lobes)
    nu = np.asarray(ring.poisson)
    even = [(2 - lobes) - nu * (lobes + 2), (lobes + 2) - nu * (2 - lobes)]
    shape = np.stack([-lobes * (1 + nu), even[0], lobes * (1 + nu), even[1]], axis=-1)
    ratio = np.asarray(ring.outer / ring.inner)[..., None]
    scale = np.asarray(ring.inner / ring.modulus)[..., None]
    at_bore = np.sum((scale * shape)[..., None] * terms.weights, axis=-2)
    at_outside = np.sum((scale * shape * ratio ** (terms.powers - 1))[..., None] * terms.weights, axis=-2)
    return Compliances(at_bore[..., 0], at_bore[..., 1], at_outside[..., 0], at_outside[..., 1])


def share_of_race(rings: Sequence[Ring], lobes: int = 2) -> Amount:
    """Return the part of the outermost bore's lobe amplitude that the innermost ring is left with (0 to 1).

    `rings` run from the bearing's outer ring to the shell; only the shell is out of round before pressing.
    The amplitude is that of the innermost ring's outside.
    """
    parts = [compliances(ring, lobes) for ring in rings]
    overlaps: list[Amount] = [*[0.0] * (len(rings) - 2), -1.0]
    return parts[0].outside_by_outside * contact_pressures(parts, overlaps)[0]


class ContactLimits(NamedTuple):
    """Two-lobe amplitude over mean radial interference at which contact is lost at the long axis.

    Below `embedded` it is kept even in a shell held as by an endless wall, above `free` it is lost even in a
    free ring; a real shell lies between, and where cannot be told from the bore.
    """

    embedded: Amount
    free: Amount


def contact_limits(rings: Sequence[Ring]) -> ContactLimits:
    """Return the bounds between which a part loses contact with an oval bore.

    `rings` run from the bearing's outer ring to the shell, as for `share_of_race`; one ring alone is a shell
    round a part that does not give.
    """
    shell = rings[-1]
    lobed, even = [compliances(ring) for ring in rings], [even_compliances(ring) for ring in rings]
    thick = shell.inner / shell.modulus
    endless_lobed = Compliances(thick * (5 - shell.poisson) / 3, 0.0, 0.0, 0.0)
    endless_even = Compliances(thick * (1 + shell.poisson), 0.0, 0.0, 0.0)
    return ContactLimits(
        _give([*lobed[:-1], endless_lobed]) / _give([*even[:-1], endless_even]), _give(lobed) / _give(even)
    )


def contact(ovality: float, interference: float, limits: ContactLimits) -> Contact:
    """Return what can be told of the contact from ovality and mean interference (mm, both on diameter).

    `cannot_be_told` from ovality alone, where it depends on how the frame holds the shell.
    """
    if ovality < 0:
        raise ValueError("ovality must not be negative")
    if interference <= 0:
        return "lost"
    demand = ovality / 4 / (interference / 2)
    if demand <= limits.embedded:
        return "kept"
    return "lost" if demand > limits.free else "cannot_be_told"


def bending_factor(shell: Ring) -> Amount:
    """Return the factor of `strain.ovality_bending_strain` for this wall at its bore (1.5 for a thin one).

    The strain is hoop stress over modulus, as strain limits of a laminate are stated.
    """
    terms = _solve(shell, 2)
    pressure = 1 / compliances(shell).bore_by_bore
    hoop = np.sum(terms.powers * (terms.powers - 1) * terms.weights[..., 0], axis=-1)
    strain = hoop * pressure / shell.modulus
    radius = (shell.inner + shell.outer) / 2
    factor: Amount = np.abs(strain) * radius**2 / (shell.outer - shell.inner)
    return factor


def _give(parts: Sequence[Compliances]) -> Amount:
    """Return by how much shell and part give way together (mm/MPa) at the outermost interface."""
    if len(parts) == 1:
        return parts[0].bore_by_bore
    overlaps: list[Amount] = [*[0.0] * (len(parts) - 2), 1.0]
    return 1 / contact_pressures(parts, overlaps)[-1]


def _solve(ring: Ring, lobes: int) -> _Terms:
    require_positive(inner_radius=ring.inner)
    if lobes < 2:
        raise ValueError("an out-of-round bore has at least two lobes")
    powers = np.array([lobes, lobes + 2, -lobes, 2 - lobes], dtype=np.float64)
    ratio = np.asarray(ring.outer / ring.inner)[..., None]
    radial = (powers - lobes**2) * np.ones_like(ratio)
    shear = lobes * (powers - 1) * np.ones_like(ratio)
    reach = ratio ** (powers - 2)
    pressure = np.array([[-1.0, 0.0], [0.0, 0.0], [0.0, -1.0], [0.0, 0.0]])
    matrix = np.stack([radial, shear, radial * reach, shear * reach], axis=-2)
    return _Terms(powers, np.linalg.solve(matrix, pressure))
