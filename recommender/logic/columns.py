"""What one fact settles: the marks of all leaves that ask it, looked up by where the fact lies among their limits."""

from bisect import bisect_right
from collections.abc import Sequence
from typing import NamedTuple, TypeVar

from recommender.facts.value import FactValue, Word, unknown
from recommender.logic.conditions import NUMBER_OPS, Leaf
from recommender.logic.evaluate import check
from recommender.logic.margins import reach
from recommender.logic.outcome import Outcome, opposite

FAR = float("inf")
Key = TypeVar("Key")


class Speaks(NamedTuple):
    """A leaf with its bit, and the bit of the condition that needs it; `against` where that needs it not to hold."""

    leaf: Leaf
    own: int
    condition: int | None
    against: bool

    def marks(self, found: FactValue, width: int) -> int:
        """Return its marks for a fact."""
        outcome = check(self.leaf, found).outcome
        own = _bits(outcome, self.own, width)
        if self.condition is None:
            return own
        return own | _bits(opposite(outcome) if self.against else outcome, self.condition, width)


class Column:
    """All leaves that ask one fact.

    Their limits cut its axis into pieces. Wherever the two ends of an interval lie in their pieces, the same leaves
    hold and fail: the first time the leaves are compared one by one, afterwards their marks are known.
    """

    def __init__(self, spoken: Sequence[Speaks], width: int) -> None:
        """Find the pieces."""
        self._spoken, self._width = spoken, width
        wanted = (each.leaf.wanted for each in spoken if each.leaf.op in NUMBER_OPS)
        self._cuts = sorted({-FAR, FAR, *(float(limit.value) for limits in wanted for limit in limits)})
        self._unknown = self._compared(unknown(spoken[0].leaf.fact.id, ""))
        self._of_word: dict[Word, int] = {}
        self._of_point: dict[int, int] = {}
        self._of_span: dict[tuple[int, int], int] = {}

    def marks(self, found: FactValue | None) -> int:
        """Return the marks for a fact; None is unknown."""
        if found is None:
            return self._unknown
        low, high = found.low, found.high
        if low is None or high is None:
            return self._without_ends(found)
        if low == high and not found.sampling and not found.beyond:
            place = bisect_right(self._cuts, low)
            if self._cuts[place - 1] == low:
                place = -place  # a limit itself is a piece of its own
            known = self._of_point.get(place)
            return self._first(self._of_point, place, found) if known is None else known
        return self._of_interval(found, low, high)

    def _of_interval(self, found: FactValue, low: float, high: float) -> int:
        if not -FAR < low <= high < FAR:
            return self._compared(found)
        least, most = reach(low, high, found.sampling, found.beyond)
        span = self._place(least), self._place(most)
        known = self._of_span.get(span)
        return self._first(self._of_span, span, found) if known is None else known

    def _place(self, end: float) -> int:
        place = bisect_right(self._cuts, end)
        return -place if self._cuts[place - 1] == end else place

    def _without_ends(self, found: FactValue) -> int:
        if found.value is not None:
            return self._compared(found)
        if found.word is None:
            told = found.could_be or not found.applies
            return self._compared(found) if told else self._unknown
        known = self._of_word.get(found.word)
        return self._first(self._of_word, found.word, found) if known is None else known

    def _first(self, known: dict[Key, int], key: Key, found: FactValue) -> int:
        known[key] = self._compared(found)
        return known[key]

    def _compared(self, found: FactValue) -> int:
        marks = 0
        for each in self._spoken:
            marks |= each.marks(found, self._width)
        return marks


def _bits(outcome: Outcome, bit: int, width: int) -> int:
    return (outcome == "fails") << bit | (outcome != "holds") << bit + width
