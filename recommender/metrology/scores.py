"""A fixed, even set of standard normal scores, so that the same case gives the same draws."""

from functools import lru_cache
from statistics import NormalDist

import numpy as np

from recommender.metrology.normal import Array

# Rank-1 lattice modulo 4096, chosen column by column: each multiplier makes the largest correlation of the scores,
# their squares and their cubes with all earlier columns the smallest there is.
MULTIPLIERS = (
    1, 1811, 3497, 1875, 1287, 3023, 1137, 3005, 969, 3589, 3321, 3647, 3607, 1947,
    3163, 395, 2167, 2659, 2143, 3153, 1941, 355, 641, 1499, 1899, 2363, 903, 1377,
)
GOLDEN = (5**0.5 - 1) / 2


@lru_cache(maxsize=8)
def normal_scores(dimensions: int, count: int = 4096) -> Array:
    """Return standard normal scores, shape (count, dimensions), read-only.

    Every column holds the same `count` evenly spaced quantiles in another order. The first columns do not depend on
    how many are asked for. Raises ValueError for more than 28 columns or a count that is no power of two; columns
    are chosen to be uncorrelated at 4096.
    """
    if not 1 <= dimensions <= len(MULTIPLIERS):
        raise ValueError(f"there are scores for 1 to {len(MULTIPLIERS)} dimensions")
    if count < 2 or count & (count - 1):
        raise ValueError("the count of scores must be a power of two")
    normal = NormalDist()
    even = np.array([normal.inv_cdf((index + 0.5) / count) for index in range(count)])
    starts = [int(count * (column * GOLDEN % 1)) for column in range(dimensions)]
    lattice = np.outer(np.arange(count), MULTIPLIERS[:dimensions])
    made: Array = (even / even.std())[(lattice + starts) % count]
    made.flags.writeable = False
    return made
