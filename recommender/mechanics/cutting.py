"""Reaming and sleeving: what is cut and left, and the sizes of a sleeve. Diameters and walls in mm."""

from typing import NamedTuple

import numpy as np

from recommender.mechanics.amount import Amount, require_not_negative, require_positive


class Sleeve(NamedTuple):
    """Sizes of a bonded sleeve (mm): bore, outside, wall, bond line per side, and the bore to ream for it."""

    inside: Amount
    outside: Amount
    wall: Amount
    bond_line: Amount
    ream_to: Amount


def wall_left(wall: Amount, bore_now: Amount, bore_after: Amount) -> Amount:
    """Return the wall left (mm) when a bore is cut from one diameter to another; negative is cut through."""
    return wall - (bore_after - bore_now) / 2


def clean_up(bore_after: Amount, bore_widest: Amount) -> Amount:
    """Return what the reamer takes off the widest diameter (mm); negative leaves old surface there."""
    return bore_after - bore_widest


def sleeve(part_bore: Amount, least_wall: Amount, bond_line: Amount, least_ream: Amount = 0.0) -> Sleeve:
    """Return the thinnest sleeve that carries a part's bore in a shell reamed to at least `least_ream` (mm).

    `bond_line` is per side. Where the shell has to be reamed further to clean up, the sleeve's wall grows.
    """
    require_positive(part_bore=part_bore, least_wall=least_wall)
    require_not_negative(bond_line=bond_line)
    outside = np.maximum(part_bore + 2 * least_wall, least_ream - 2 * bond_line)
    return Sleeve(part_bore, outside, (outside - part_bore) / 2, bond_line, outside + 2 * bond_line)
