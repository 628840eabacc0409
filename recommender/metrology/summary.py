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
COARSEST, FINEST = 2**16 - 1, 2**32 - 1
BESIDE = 6


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

    def times(self, factor: float) -> "Summary":
        """Return the summary of the same draws times a factor; one below zero turns the interval round."""
        low, high = sorted((self.low * factor, self.high * factor))
        size = abs(factor)
        return Summary(self.value * factor, low, high, self.sampling_error * size, self.beyond * size)

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
    asked = _asked(effective_count, confidence)
    near = None
    if weights is None:
        near = _near(values, low, high - low, _beside(effective_count, confidence, len(values)))
    if near is None:
        order = _rising(values, low, high - low)
        near = _Near(_reached(weights, order), values[order])
    a, bottom, b, c, middle, d, e, top, f, least, most = np.interp(asked, *near).tolist()
    error = max(bottom - a, b - bottom, middle - c, d - middle, top - e, f - top)
    return Summary(middle, bottom, top, error, max(bottom - least, most - top, 0.0))


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


class _Near(NamedTuple):
    """Some draws in rising order, and the share of all weight below the middle of each."""

    reached: Array
    values: Array


class _Beside(NamedTuple):
    """Which places of the rising order lie beside the shares asked for, and the share each of them reaches.

    The rows of `edges` are the places below and above each share, and those that lie `BESIDE` places farther out.
    """

    places: Order
    reached: Array
    edges: Order


@lru_cache(maxsize=64)
def _beside(effective_count: float, confidence: float, count: int) -> _Beside:
    """Return where a summary of draws that all count alike looks, with some places to spare on both sides."""
    below = np.floor(_asked(effective_count, confidence) * count - 0.5).astype(np.intp)
    needed, outer = (np.clip([below - by, below + 1 + by], 0, count - 1) for by in (0, BESIDE))
    places = np.array(sorted({place for first, last in outer.T.tolist() for place in range(first, last + 1)}))
    return _Beside(places, _evenly(count)[places], np.stack([needed.ravel(), outer.ravel()]))


def _near(values: Array, low: float, span: float, at: _Beside) -> _Near | None:
    """Return the draws beside the shares asked for; None where too many of them lie too close together.

    All draws are put in order coarsely, by their 16-bit place in their span, and exactly only those looked at. That
    is right where a coarse step lies between the places needed and the outermost of those looked at.
    """
    coarse = ((values - low) * (COARSEST / span)).astype(np.uint16)
    order = coarse.argsort(kind="stable")
    needed, outer = coarse[order[at.edges]]
    if (needed == outer).any():
        return None
    near = values[order[at.places]]
    near.sort()
    return _Near(at.reached, near)


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
