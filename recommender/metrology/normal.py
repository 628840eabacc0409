"""Distributions the metrology needs: the normal and the chi-square."""

from math import erfc, exp, lgamma, log, sqrt

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
# From here on the probability below a score is 1 to the last bit.
CERTAIN = 8.5


def normal_cdf(score: float) -> float:
    """Return the probability that a standard normal quantity lies below the score."""
    return erfc(-score / sqrt(2.0)) / 2


def normal_cdfs(scores: Array) -> Array:
    """Return the probability below each score, shape of the scores, one dimension."""
    found = np.ones(len(scores))
    doubtful = ~(scores > CERTAIN)
    found[doubtful] = [erfc(each) / 2 for each in (scores[doubtful] / -sqrt(2.0)).tolist()]
    return found


def bell(scores: Array) -> Array:
    """Return the normal density at each score over that at zero, between 0 and 1."""
    height: Array = np.exp(-(scores**2) / 2)
    return height


def chi_square_survival(value: float, degrees: int) -> float:
    """Return the probability that a chi-square quantity exceeds the value (finite series for whole degrees)."""
    half = value / 2
    if half <= 0:
        return 1.0
    order = 1.0 if degrees % 2 == 0 else 0.5
    total = exp(-half) if degrees % 2 == 0 else erfc(sqrt(half))
    while order < degrees / 2:
        total += exp(order * log(half) - half - lgamma(order + 1))
        order += 1
    return min(1.0, total)
