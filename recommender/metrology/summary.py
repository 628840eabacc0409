"""A weighted set of draws in three numbers: median and 95 % interval, with the sampling error of these."""

from math import sqrt
from typing import NamedTuple

import numpy as np

from recommender.metrology.normal import Array

SHARES = (0.025, 0.5, 0.975)


class Summary(NamedTuple):
    """Median, ends of the equal-tailed 95 % interval and their largest sampling error, in the unit of the draws."""

    value: float
    low: float
    high: float
    sampling_error: float


def summarise(values: Array, weights: Array, effective_count: float) -> Summary:
    """Return median, interval and sampling error of draws, shape (count,); weights sum to 1.

    The sampling error of a quantile is how far it moves when its share moves by one binomial standard deviation at
    the effective count. Raises ValueError where a draw is not a finite number.
    """
    if not np.all(np.isfinite(values)):
        raise ValueError("a draw is not a finite number")
    shifts = [sqrt(share * (1 - share) / effective_count) for share in SHARES]
    asked = [share + side * shift for share, shift in zip(SHARES, shifts, strict=True) for side in (-1, 0, 1)]
    found = quantiles(values, weights, np.clip(asked, 0.0, 1.0)).reshape(3, 3)
    low, middle, high = (float(each) for each in found[:, 1])
    return Summary(middle, low, high, float(np.max(np.abs(np.diff(found, axis=1)))))


def quantiles(values: Array, weights: Array, shares: Array) -> Array:
    """Return the weighted quantiles at the given shares (0 to 1), between draws by straight lines."""
    order = np.argsort(values, kind="stable")
    mass = weights[order]
    return np.interp(shares, np.cumsum(mass) - mass / 2, values[order])
