"""Whether a size is proved inside limits: an answer about a specification, never about a fit.

ISO 14253-1: proof at a conformance probability of 95 % (default); JCGM 106: the probability itself, for two limits.
"""

from typing import Literal, NamedTuple

import numpy as np

from recommender.metrology.normal import Array, normal_cdf

Answer = Literal["proved_conforming", "proved_not_conforming", "not_proved", "no_published_limit"]
LEVEL = 0.95


class Conformity(NamedTuple):
    """The answer and the probability that the size lies inside the limits; None where there is no limit."""

    answer: Answer
    probability: float | None


def conformity(
    values: Array, weights: Array, lower: float | None, upper: float | None, level: float = LEVEL
) -> Conformity:
    """Return whether draws of a size are proved inside limits (mm); None is no limit on that side."""
    return conformity_between(values, values, weights, lower, upper, level)


def conformity_between(
    smallest: Array, largest: Array, weights: Array, lower: float | None, upper: float | None, level: float = LEVEL
) -> Conformity:
    """Return whether two sizes are both proved: the smallest above the lower and the largest below the upper limit."""
    inside = np.ones(len(weights), dtype=bool)
    if lower is not None:
        inside &= smallest >= lower
    if upper is not None:
        inside &= largest <= upper
    return _answer(min(1.0, float(weights @ inside)), lower, upper, level)


def conformity_of_normal(
    value: float, u: float, lower: float | None, upper: float | None, level: float = LEVEL
) -> Conformity:
    """Return the same for a size with a normal standard uncertainty."""
    below = 0.0 if lower is None else normal_cdf((lower - value) / u)
    above = 0.0 if upper is None else normal_cdf((value - upper) / u)
    return _answer(max(0.0, 1 - below - above), lower, upper, level)


def _answer(probability: float, lower: float | None, upper: float | None, level: float) -> Conformity:
    if lower is None and upper is None:
        return Conformity("no_published_limit", None)
    if probability >= level:
        return Conformity("proved_conforming", probability)
    if probability <= 1 - level:
        return Conformity("proved_not_conforming", probability)
    return Conformity("not_proved", probability)
