"""An uncertainty budget: independent contributions put together (GUM 5.1.2 and annex G.4)."""

from collections.abc import Sequence
from math import inf, sqrt
from typing import NamedTuple


class Contribution(NamedTuple):
    """One input: its standard uncertainty, what the result changes per unit of it, its degrees of freedom."""

    name: str
    u: float
    sensitivity: float = 1.0
    degrees: float = inf


class Budget(NamedTuple):
    """Combined standard uncertainty, in the unit of the result, and its effective degrees of freedom."""

    u: float
    degrees: float


def combined(contributions: Sequence[Contribution]) -> Budget:
    """Return the root sum of squares of independent contributions, with Welch-Satterthwaite degrees of freedom."""
    parts = [(each.u * each.sensitivity, each.degrees) for each in contributions]
    u = sqrt(sum(part**2 for part, _ in parts))
    spent = sum(part**4 / degrees for part, degrees in parts)
    return Budget(u, u**4 / spent if spent else inf)
