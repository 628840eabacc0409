"""Where the interval of a number lies with respect to a limit, and by how much."""

from math import copysign, isfinite
from typing import NamedTuple

from recommender.facts.value import FactValue
from recommender.logic.conditions import Leaf
from recommender.logic.outcome import Outcome, every

ROOM = 3.0
DIGITS = 9
UPWARD = frozenset({"at_least", "above"})
INCLUDED = frozenset({"at_least", "at_most"})


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
    return made if isfinite(found.value) and isfinite(low) and isfinite(high) and isfinite(made.room) else None


def compare(leaf: Leaf, found: Interval) -> Verdict:
    """Return how a number compares with the operands of a leaf."""
    limits = [float(operand.value) for operand in leaf.wanted]
    if leaf.op == "between":
        ends = (_compare("at_least", found, limits[0]), _compare("at_most", found, limits[1]))
        return Verdict(every(end.outcome for end in ends), min(end.margin for end in ends))
    return _compare(leaf.op, found, limits[0])


def outcome_of_number(leaf: Leaf, found: Interval) -> Outcome:
    """Return the outcome of a comparison of numbers without its margin."""
    if leaf.op == "between":
        low, high = (float(operand.value) for operand in leaf.wanted)
        ends = (_turned(True, found, low), _turned(False, found, high))
        return every(_outcome(op, *end) for op, end in zip(("at_least", "at_most"), ends, strict=True))
    upward = leaf.op in UPWARD
    return _outcome(leaf.op, *_turned(upward, found, float(leaf.wanted[0].value)))


def _compare(op: str, found: Interval, limit: float) -> Verdict:
    near, far, room = _turned(op in UPWARD, found, limit)
    outcome = _outcome(op, near, far, room)
    if outcome == "undecided":
        return Verdict(outcome, _tidy(found.value - limit if op in UPWARD else limit - found.value))
    return Verdict(outcome, _tidy(near if outcome == "holds" else far))


def _turned(upward: bool, found: Interval, limit: float) -> tuple[float, float, float]:
    """Return how far the ends lie on the wanted side of a limit, turned so that this is always the upper one."""
    if upward:
        return found.low - limit, found.high - limit, found.room
    return limit - found.high, limit - found.low, found.room


def _outcome(op: str, near: float, far: float, room: float) -> Outcome:
    """Return the outcome from how far both ends lie on the wanted side; equality belongs to `at_...` only."""
    included = op in INCLUDED
    if near > room or (included and near == room):
        return "holds"
    return "fails" if far < -room or (not included and far == -room) else "undecided"


def _tidy(margin: float) -> float:
    return round(margin, DIGITS) + 0.0


def in_spreads(margin: float, found: Interval) -> float | None:
    """Return a margin in half-widths of the interval; None when the interval has no width."""
    half = (found.high - found.low) / 2
    return None if half <= 0 else copysign(round(abs(margin) / half, 6), margin)
