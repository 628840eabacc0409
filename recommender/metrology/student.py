"""Coverage factors of Student's t distribution for whole degrees of freedom (GUM table G.2)."""

from math import atan, cos, floor, isinf, pi, sin, sqrt
from statistics import NormalDist

MANY = 10_000
STEPS = 100


def coverage_factor(degrees: float, level: float = 0.95) -> float:
    """Return k so that +-k standard uncertainties hold `level`; degrees are truncated down, at least one.

    Raises ValueError for a level outside 0 to 1.
    """
    if not 0 < level < 1:
        raise ValueError("a level of confidence lies between 0 and 1")
    if isinf(degrees) or degrees > MANY:
        return NormalDist().inv_cdf((1 + level) / 2)
    whole = max(1, floor(degrees))
    low, high = 0.0, 1.0
    while _inside(high, whole) < level:
        high *= 2
    for _ in range(STEPS):
        middle = (low + high) / 2
        low, high = (middle, high) if _inside(middle, whole) < level else (low, middle)
    return high


def _inside(k: float, degrees: int) -> float:
    """Return the probability of lying within +-k (Abramowitz and Stegun, 26.7.3 and 26.7.4)."""
    angle = atan(k / sqrt(degrees))
    odd = degrees % 2
    term, total = (cos(angle), 0.0) if odd else (1.0, 0.0)
    for step in range(1 + odd, degrees, 2):
        total += term
        term *= step / (step + 1) * cos(angle) ** 2
    return 2 / pi * (angle + sin(angle) * total) if odd else sin(angle) * total
