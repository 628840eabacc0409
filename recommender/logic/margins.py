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
    """The median and the ends of a number, and how far they reach with the room that sampled ends need."""

    value: float
    low: float
    high: float
    least: float
    most: float


def interval(found: FactValue) -> Interval | None:
    """Return the interval of a number; None when it has no value or is not finite."""
    if found.value is None:
        return None
    low = found.value if found.low is None else found.low
    high = found.value if found.high is None else found.high
    made = Interval(found.value, low, high, *reach(low, high, found.sampling, found.beyond))
    return made if all(map(isfinite, made)) else None


def reach(low: float, high: float, sampling: float, beyond: float = 0.0) -> tuple[float, float]:
    """Return the ends of the interval that decides: what it reaches beyond the one shown, and three sampling errors.

    The latter so that the last bits never decide.
    """
    room = beyond + ROOM * sampling
    return (round(low - room, DIGITS), round(high + room, DIGITS)) if room else (low, high)


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
    upward = op in UPWARD
    outcome = _outcome(op, *_turned(upward, found, limit))
    decides = found.value if outcome == "undecided" else found.low if upward is (outcome == "holds") else found.high
    return Verdict(outcome, _tidy(decides - limit if upward else limit - decides))


def _turned(upward: bool, found: Interval, limit: float) -> tuple[float, float, float]:
    """Return the near and the far end and the limit, turned so that the wanted side is always the upper one."""
    return (found.least, found.most, limit) if upward else (-found.most, -found.least, -limit)


def _outcome(op: str, near: float, far: float, limit: float) -> Outcome:
    """Return the outcome from both ends and the limit; equality belongs to `at_...` only."""
    included = op in INCLUDED
    if near > limit or (included and near == limit):
        return "holds"
    return "fails" if far < limit or (not included and far == limit) else "undecided"


def _tidy(margin: float) -> float:
    return round(margin, DIGITS) + 0.0


def in_spreads(margin: float, found: Interval) -> float | None:
    """Return a margin in half-widths of the interval; None when the interval has no width."""
    half = (found.high - found.low) / 2
    return None if half <= 0 else copysign(round(abs(margin) / half, 6), margin)
