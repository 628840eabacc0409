"""Where the interval of a number lies with respect to a limit, and by how much."""

from math import copysign
from typing import NamedTuple

from recommender.facts.value import FactValue
from recommender.logic.conditions import Leaf
from recommender.logic.outcome import Outcome, every

ROOM = 3.0
DIGITS = 9


class Verdict(NamedTuple):
    """The outcome of a comparison of numbers and its signed margin in the fact's unit."""

    outcome: Outcome
    margin: float


class Interval(NamedTuple):
    """The median and the ends of a number, and the room its ends need because they are sampled."""

    value: float
    low: float
    high: float
    room: float


def interval(found: FactValue) -> Interval | None:
    """Return the interval of a number; None when it has no value or is not finite."""
    if found.value is None:
        return None
    low = found.value if found.low is None else found.low
    high = found.value if found.high is None else found.high
    made = Interval(found.value, low, high, ROOM * found.sampling)
    return made if all(abs(each) < float("inf") for each in made) else None


def compare(leaf: Leaf, found: Interval) -> Verdict:
    """Return how a number compares with the operands of a leaf."""
    limits = [float(operand.value) for operand in leaf.wanted]
    if leaf.op == "between":
        ends = (_compare("at_least", found, limits[0]), _compare("at_most", found, limits[1]))
        return Verdict(every(end.outcome for end in ends), min(end.margin for end in ends))
    return _compare(leaf.op, found, limits[0])


def _compare(op: str, found: Interval, limit: float) -> Verdict:
    """Turn the comparison so that the wanted side is always the upper one; equality belongs to `at_...` only."""
    upward = op in ("at_least", "above")
    near, far, middle = (
        (found.low - limit, found.high - limit, found.value - limit)
        if upward
        else (limit - found.high, limit - found.low, limit - found.value)
    )
    included = op in ("at_least", "at_most")
    if near > found.room or (included and near == found.room):
        return Verdict("holds", _tidy(near))
    if far < -found.room or (not included and far == -found.room):
        return Verdict("fails", _tidy(far))
    return Verdict("undecided", _tidy(middle))


def _tidy(margin: float) -> float:
    return round(margin, DIGITS) + 0.0


def in_spreads(margin: float, found: Interval) -> float | None:
    """Return a margin in half-widths of the interval; None when the interval has no width."""
    half = (found.high - found.low) / 2
    return None if half <= 0 else copysign(round(abs(margin) / half, 6), margin)
