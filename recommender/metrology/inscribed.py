"""The largest circle inside a section with two and three lobes.

Derived: a unit measure on the circle with no first moment has |third moment| <= 1 - |second moment|^2, with free
phases, so the loss is the maximum of a2 s + a3 (1 - s^2) over 0 <= s <= 1. It does not depend on how the lobes are
turned against each other.
"""

import numpy as np

from recommender.metrology.normal import Array


def loss(two_lobe: Array | float, three_lobe: Array | float) -> Array:
    """Return mean minus inscribed size, in the unit of the amplitudes.

    Radius amplitudes give the loss on radius, diameter amplitudes the loss on diameter; the circumscribed circle is
    larger than the mean by the same amount.
    """
    two, three = np.broadcast_arrays(np.asarray(two_lobe, dtype=np.float64), np.asarray(three_lobe, dtype=np.float64))
    lobed = three > two / 2
    return np.where(lobed, three + two**2 / (4 * np.where(lobed, three, 1.0)), two)
