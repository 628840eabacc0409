"""Glued seats: whether a compound fills the gap, what a bond carries, how the cold peels a sleeve.

Strengths, gap classes and surface factors come in as arguments.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from recommender.mechanics.amount import Amount, require_not_negative, require_positive
from recommender.mechanics.compound import Gap
from recommender.mechanics.rings import AnyRing, stack_pressures


class GapClass(NamedTuple):
    """Gaps a compound fills (mm, on diameter): the narrowest it still runs into and the widest it bridges."""

    narrowest: float
    widest: float


def fills(gap: Gap, gap_class: GapClass) -> NDArray[np.bool_]:
    """Return, draw by draw, whether a compound fills the gap at its narrowest and at its widest place."""
    enters = np.asarray(gap.narrowest) >= gap_class.narrowest
    return enters & (np.asarray(gap.widest) <= gap_class.widest)


def design_strength(shear_strength: Amount, *factors: Amount) -> Amount:
    """Return the shear strength (MPa) to count on: that of the data sheet times what each condition leaves.

    Factors (0 to 1) stand for surface, gap, heat, ageing and lack of activator.
    """
    require_not_negative(shear_strength=shear_strength)
    for factor in factors:
        if not np.all((np.asarray(factor) >= 0) & (np.asarray(factor) <= 1)):
            raise ValueError("a strength factor lies between 0 and 1")
    return shear_strength * math.prod(factors)


def bond_area(diameter: Amount, length: Amount) -> Amount:
    """Return the area of a glued seat (mm2)."""
    require_positive(diameter=diameter, length=length)
    return math.pi * diameter * length


def axial_strength(strength: Amount, diameter: Amount, length: Amount) -> Amount:
    """Return the axial force (N) at which a glued seat shears, `strength` in MPa."""
    return strength * bond_area(diameter, length)


def torque_strength(strength: Amount, diameter: Amount, length: Amount) -> Amount:
    """Return the torque (N mm) at which a glued seat shears, `strength` in MPa."""
    return axial_strength(strength, diameter, length) * diameter / 2


def least_length(force: Amount, reserve: Amount, strength: Amount, diameter: Amount) -> Amount:
    """Return the length (mm) of a glued seat that carries an axial force (N) with a reserve factor."""
    require_positive(reserve=reserve, strength=strength, diameter=diameter)
    return force * reserve / (math.pi * diameter * strength)


def peel_stress(rings: Sequence[AnyRing], temperature_change: Amount, bond: int = -1) -> Amount:
    """Return the radial pull (MPa, tension positive, never negative) on the bond of a sleeve that changed temperature.

    `rings` run from the sleeve, or from the bearing inside it, to the shell, put together without interference
    at the temperature of cure; `bond` counts the interface from inside. Only that of the bond can pull: a
    bearing that comes loose inside the sleeve has to be left out. Source: thick-cylinder equations, the bond
    line itself taken as rigid, which is the high side.
    """
    unstrained: list[Amount] = [0.0] * (len(rings) - 1)
    pressure = stack_pressures(rings, unstrained, temperature_change)[bond]
    return np.maximum(-pressure, 0.0)
