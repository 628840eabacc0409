"""Hoop strain of the shell: its share of the interference, bending from ovality, openings beside the seat."""

from collections.abc import Sequence

import numpy as np

from recommender.mechanics.amount import Amount, require_not_negative, require_positive
from recommender.mechanics.rings import Ring, hoop_strain_at_bore

THIN_RING_BENDING = 1.5


def shell_hoop_strain(shell: Ring, pressure: Amount, stiffening: Amount = 1.0) -> Amount:
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


def port_factor(ligament: Amount, size: Amount, ratios: Sequence[float], factors: Sequence[float]) -> Amount:
    """Return the strain factor of a round port from the ligament between it and the face (both mm).

    `factors` belong to the rising `ratios` of ligament to size; linear between them, the last one beyond
    them, and infinite below the first, where no factor is known.
    """
    require_positive(size=size)
    require_not_negative(ligament=ligament)
    if len(ratios) != len(factors) or not ratios or any(np.diff(ratios) <= 0):
        raise ValueError("port factors need one rising ratio of ligament to size each")
    return np.interp(ligament / size, ratios, factors, left=np.inf)


def faded_factor(factor: Amount, distance: Amount, decay: Amount) -> Amount:
    """Return what is left of a strain factor for an opening `distance` mm outside the seat (0 is within).

    Whole within one decay length of the seat, dying away exponentially beyond it.
    """
    require_positive(decay=decay)
    return 1 + (factor - 1) * np.exp(-np.maximum(distance / decay - 1, 0))


def total_strain(hoop: Amount, bending: Amount = 0.0, opening_factor: Amount = 1.0) -> Amount:
    """Return the largest tensile hoop strain (a ratio): hoop plus bending, times the opening's factor."""
    return opening_factor * (hoop + bending)
