"""A weighted set of draws in three numbers, median and 95 % interval, and how far what decides reaches beyond."""

from functools import lru_cache
from math import isfinite, sqrt
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from recommender.metrology.normal import Array

Order = NDArray[np.intp]
SHARES = (0.025, 0.5, 0.975)
SHOWN = 0.95
HALF = 16
FINEST = 2**32 - 1


class Summary(NamedTuple):
    """Median, ends of the equal-tailed 95 % interval and their largest sampling error, in the unit of the draws.

    `beyond`: how far the interval that decides reaches past these ends, at the end where it reaches farther; 0 where
    95 % are enough to decide.
    """

    value: float
    low: float
    high: float
    sampling_error: float
    beyond: float = 0.0

    @property
    def least(self) -> float:
        """Return the lower end of the interval that decides."""
        return self.low - self.beyond

    @property
    def most(self) -> float:
        """Return the upper end of the interval that decides."""
        return self.high + self.beyond


def summarise(values: Array, weights: Array | None, effective_count: float, confidence: float = SHOWN) -> Summary:
    """Return median, interval and sampling error of draws, shape (count,); weights sum to 1, None: all count alike.

    The sampling error of a quantile is how far it moves when its share moves by one binomial standard deviation at
    the effective count. `confidence` is the share of the draws that has to lie within the interval that decides.
    Raises ValueError where a draw is not a finite number.
    """
    low, high = float(values.min()), float(values.max())
    if not isfinite(high - low):
        raise ValueError("a draw is not a finite number")
    if low == high:
        return Summary(low, low, low, 0.0)
    order = _rising(values, low, high - low)
    asked = _asked(effective_count, confidence)
    found = np.interp(asked, _reached(weights, order), values[order]).tolist()
    error = max(abs(found[index] - found[index + 1]) for index in (0, 1, 3, 4, 6, 7))
    return Summary(found[4], found[1], found[7], error, max(found[1] - found[9], found[10] - found[7], 0.0))


def quantiles(values: Array, weights: Array, shares: Array) -> Array:
    """Return the weighted quantiles at the given shares (0 to 1), between draws by straight lines."""
    low, high = float(values.min()), float(values.max())
    if low == high:
        return np.full(len(shares), low)
    order = _rising(values, low, high - low)
    return np.interp(shares, _reached(weights, order), values[order])


def all_alike(weights: Array) -> bool:
    """Return whether every draw counts as much as every other, to the last bit."""
    return bool(weights.min() == weights.max() == 1 / len(weights))


def _reached(weights: Array | None, order: Order) -> Array:
    """Return the share of all weight below the middle of each draw, in their rising order."""
    if weights is None:
        return _evenly(len(order))
    mass = weights[order]
    return np.cumsum(mass) - mass / 2


@lru_cache(maxsize=4)
def _evenly(count: int) -> Array:
    return (np.arange(count) + 0.5) / count


@lru_cache(maxsize=64)
def _asked(effective_count: float, confidence: float) -> Array:
    """Return the shares of low end, median and high end, each between the two that tell its sampling error.

    After them those of both ends of the interval that decides.
    """
    shifts = [sqrt(share * (1 - share) / effective_count) for share in SHARES]
    asked = [share + side * shift for share, shift in zip(SHARES, shifts, strict=True) for side in (-1, 0, 1)]
    beyond = (1 - max(confidence, SHOWN)) / 2
    return np.clip([*asked, beyond, 1 - beyond], 0.0, 1.0)


def _rising(values: Array, low: float, span: float) -> Order:
    """Return the order in which draws rise; those closer than a 4-billionth of their span stay as they are given.

    Sorted by the halves of their 32-bit place in that span, the lower half first: several times faster than
    comparing the numbers, and thousands of times finer than anything is rounded to.
    """
    places = ((values - low) / span * FINEST).astype(np.uint32)
    order = places.astype(np.uint16).argsort(kind="stable")
    upper = (places >> HALF).astype(np.uint16)
    rising: Order = order[upper[order].argsort(kind="stable")]
    return rising
