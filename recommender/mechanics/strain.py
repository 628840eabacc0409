"""Strain of the shell: its share of the interference, bending from ovality and beside the edge of a part."""

import numpy as np

from recommender.mechanics.amount import Amount, require_positive
from recommender.mechanics.rings import AnyRing, hoop_strain_at_bore

THIN_RING_BENDING = 1.5
EDGE_BENDING = 0.93
"""Axial bending at a sharp edge over the hoop strain of the wall under the part. Fitted to finite elements of an
isotropic shell, wall 3 mm on 44 mm, rigid part, no friction."""


def shell_hoop_strain(shell: AnyRing, pressure: Amount, stiffening: Amount = 1.0) -> Amount:
    """Return the hoop strain at the shell's bore under the pressure of the part (a ratio).

    `stiffening` is that of a short seat, which lets the shell strain less than a plain ring under that
    pressure.
    """
    require_positive(stiffening=stiffening)
    return hoop_strain_at_bore(shell, pressure, 0.0) / stiffening


def rigid_insert_strain(interference: Amount, diameter: Amount) -> Amount:
    """Return the hoop strain of a shell round an insert that does not give: interference over diameter."""
    require_positive(diameter=diameter)
    return interference / diameter


def ovality_bending_strain(
    ovality: Amount, radius_mean: Amount, wall: Amount, factor: Amount = THIN_RING_BENDING
) -> Amount:
    """Return the largest bending strain (a ratio, of both signs) of a free oval shell pressed round.

    `ovality` is the largest minus the smallest diameter (mm), four times the radial amplitude. Source:
    inextensional bending of a thin ring; `oval.bending_factor` gives the factor of a thick one.
    """
    require_positive(radius_mean=radius_mean, wall=wall)
    return factor * ovality / 4 * wall / radius_mean**2


def edge_bending_strain(interference: Amount, diameter: Amount) -> Amount:
    """Return the axial compression (a ratio, as a size) of the shell's bore just inboard of a rigid part's sharp edge.

    Stress over axial modulus, isotropic shell that runs on beyond the edge; `diameter` is the shell's mean one.
    """
    return EDGE_BENDING * rigid_insert_strain(interference, diameter)


def clamped_edge_strain(interference: Amount, diameter: Amount, poisson: Amount, modulus_ratio: Amount) -> Amount:
    """Return the upper bound of `edge_bending_strain`: the shell glued to the part up to its edge.

    `modulus_ratio` is hoop over axial modulus. Source: bending of a thin cylindrical shell under axially
    symmetric load, theory of plates and shells.
    """
    require_positive(modulus_ratio=modulus_ratio)
    clamped: Amount = np.sqrt(3 * modulus_ratio / (1 - poisson**2))
    return clamped * rigid_insert_strain(interference, diameter)


def total_strain(hoop: Amount, bending: Amount = 0.0, opening_factor: Amount = 1.0) -> Amount:
    """Return the largest tensile hoop strain (a ratio): hoop plus bending, times the opening's factor."""
    return opening_factor * (hoop + bending)
