"""A fixed, even set of standard normal scores, so that the same case gives the same draws."""

from functools import lru_cache
from statistics import NormalDist

import numpy as np

from recommender.metrology.normal import Array

# Rank-1 lattice modulo 4096, chosen column by column: each multiplier keeps the scores, their squares and cubes least
# correlated with all earlier columns, and sums, differences and amplitudes of two columns closest to what they must be.
MULTIPLIERS = (
    1, 3427, 2673, 1659, 555, 3117, 1397, 3203, 2411, 3663, 1527, 3013, 2547, 1265,
    3497, 2905, 535, 2365, 1337, 1997, 991, 2787, 429, 3851, 2119, 2585, 1357, 2207,
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
