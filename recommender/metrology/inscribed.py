"""The largest circle inside a section with two, three and five lobes.

Derived by duality: the loss is the largest a2 |m2| + a3 |m3| + a5 |m5| over the moments m of a unit measure on the
circle whose first moment vanishes, with free phases. Positive moment matrices give |m3| <= 1 - |m2|^2, attained, and
|m5| <= |m2||m3| + sqrt((1 - |m2|^2)(1 - |m3|^2)); the best lies at |m3| = 1 - |m2|^2.
"""

from typing import NamedTuple

import numpy as np

from recommender.metrology.normal import Array

NODES = 65
TWO = np.cos(np.linspace(0.0, np.pi / 2, NODES))
THREE = 1 - TWO**2
MOMENTS = np.stack([TWO, THREE, TWO * THREE + np.sqrt((1 - TWO**2) * (1 - THREE**2))])
TINY = 1e-12


def loss(two_lobe: Array | float, three_lobe: Array | float) -> Array:
    """Return mean minus inscribed size of a section with two and three lobes, in the unit of the amplitudes.

    Radius amplitudes give the loss on radius, diameter amplitudes that on diameter; it does not depend on how the
    lobes are turned against each other. The circumscribed circle is larger than the mean by the same amount.
    """
    two, three = np.broadcast_arrays(np.asarray(two_lobe, float), np.asarray(three_lobe, float))
    lobed = three > two / 2
    return np.where(lobed, three + two**2 / (4 * np.where(lobed, three, 1.0)), two)


class Losses(NamedTuple):
    """What two, three and five lobes take from the inscribed size: on average at least, and however turned at most."""

    least: Array
    most: Array


def losses(two_lobe: Array, three_lobe: Array, five_lobe: Array) -> Losses:
    """Return the bounds of the loss for five lobes turned anyhow against the others, amplitudes of shape (count,).

    Larger lobes leave room for the circle to move out of the way of the five, so it is less than their sum. The most
    is missed by less than 0.02 % of the amplitudes between nodes. The loss is convex in the form, so over all turns
    of the five lobes it is on average no less than without them, nor than that of the five alone.
    """
    without = loss(two_lobe, three_lobe)
    reached = np.stack([two_lobe, three_lobe, five_lobe], axis=1) @ MOMENTS
    least = np.maximum(without, five_lobe)
    return Losses(least, np.maximum(reached.max(axis=1), least))


def lean(two_lobe: Array, three_lobe: Array, five_lobe: Array) -> Array:
    """Return the exponent that turns an even share into the place of the loss between its bounds.

    Small five lobes leave it near the least: on average at 15 % of the way, and 65 % more per share they have of what
    the others take (fitted to sections solved by linear programming over all turns).
    """
    share = five_lobe / np.maximum(loss(two_lobe, three_lobe), TINY)
    return 1 / np.clip(0.15 + 0.65 * share, 0.15, 0.66) - 1
