"""Pressures between nested rings, from how each ring gives way to pressure on its bore and outside."""

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from recommender.mechanics.amount import Amount


class Compliances(NamedTuple):
    """Outward radial displacement (mm) of a ring's bore or outside per MPa on its bore or outside."""

    bore_by_bore: Amount
    bore_by_outside: Amount
    outside_by_bore: Amount
    outside_by_outside: Amount


def contact_pressures(rings: Sequence[Compliances], overlaps: Sequence[Amount]) -> list[Amount]:
    """Return the pressure (MPa) at each interface of nested rings, inside to outside.

    `overlaps` are radial (mm), one per interface. Every interface is taken as closed: the outer ring's bore
    moves out and the inner ring's outside moves in until they meet, which is one row of a tridiagonal system.
    """
    require_interfaces(len(rings), len(overlaps))
    pairs = list(pairwise(rings))
    own = [outer.bore_by_bore - inner.outside_by_outside for inner, outer in pairs]
    next_out = [outer.bore_by_outside for _, outer in pairs]
    next_in = [-inner.outside_by_bore for inner, _ in pairs]
    return _solve_tridiagonal(next_in, own, next_out, list(overlaps))


def require_interfaces(rings: int, interferences: int) -> None:
    """Raise ValueError unless there are two rings or more and one interference between each two."""
    if rings < 2 or interferences != rings - 1:
        raise ValueError("a stack needs at least two rings and one interference per interface")


def _solve_tridiagonal(
    below: Sequence[Amount], diagonal: list[Amount], above: Sequence[Amount], right: list[Amount]
) -> list[Amount]:
    for row in range(1, len(right)):
        ratio = below[row] / diagonal[row - 1]
        diagonal[row] = diagonal[row] - ratio * above[row - 1]
        right[row] = right[row] - ratio * right[row - 1]
    solved = [right[-1] / diagonal[-1]]
    for row in range(len(right) - 2, -1, -1):
        solved.insert(0, (right[row] - above[row] * solved[0]) / diagonal[row])
    return solved
