"""Fixed, evenly spread normal scores for simulated benches: the same every time, without chance."""

from functools import lru_cache
from math import isqrt, sqrt
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


@lru_cache(maxsize=16)
def fixed_scores(count: int, dimensions: int) -> Array:
    """Return standard normal scores, shape (count, dimensions), read-only.

    Richtmyer's sequence: multiples of the square roots of the primes, modulo 1. Columns are brought to mean 0 and
    standard deviation 1, and what little they have in common is taken out. More rows than columns are needed.
    """
    roots = np.array([sqrt(prime) for prime in _primes(dimensions)])
    shares = (0.5 + np.outer(np.arange(count), roots)) % 1.0
    normal = NormalDist()
    made = np.array([normal.inv_cdf(min(max(each, 1e-9), 1 - 1e-9)) for each in shares.ravel()]).reshape(shares.shape)
    base, size = np.linalg.qr(made - made.mean(axis=0))
    scaled: Array = base * np.sign(np.diag(size)) * sqrt(count)
    scaled.flags.writeable = False
    return scaled


def even_shares(count: int) -> Array:
    """Return standard normal quantiles at the middles of `count` equal shares."""
    normal = NormalDist()
    return np.array([normal.inv_cdf((place + 0.5) / count) for place in range(count)])


def _primes(count: int) -> list[int]:
    found: list[int] = []
    number = 2
    while len(found) < count:
        if all(number % prime for prime in found if prime <= isqrt(number)):
            found.append(number)
        number += 1
    return found
