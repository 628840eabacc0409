"""Many conditions compiled together: what a fact settles is looked up, not compared leaf by leaf.

The marks of all leaves and conditions are the bits of one whole number, and those that different facts set are put
together with "or". No leaf is skipped: the marks say of each whether it holds, fails or is undecided, and `evaluate`
says the same with margins and in words.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import count

from recommender.facts.value import FactValue
from recommender.logic.columns import Column, Speaks
from recommender.logic.conditions import Condition, Leaf, leaves_of
from recommender.logic.evaluate import COMBINE
from recommender.logic.outcome import Outcome

OutcomeOf = Callable[[int], Outcome]


class Board:
    """The leaves of many conditions, ready to be marked with what is known of a subject.

    `leaves` stand in the order written. The first bits of the marks are set for the leaves that fail and then for the
    conditions that fail; as many above them for those that do not hold.
    """

    def __init__(self, conditions: Sequence[Condition]) -> None:
        """Compile the conditions."""
        self.leaves = tuple(leaf for each in conditions for leaf in leaves_of(each))
        self.width = len(self.leaves) + len(conditions)
        self._conditions = range(len(self.leaves), self.width)
        self._next_leaf = count()
        self._spoken: dict[str, list[Speaks]] = {}
        self._nested: list[tuple[int, OutcomeOf]] = []
        for condition, bit in zip(conditions, self._conditions, strict=True):
            self._take(condition, bit)
        self._columns = [(fact, Column(spoken, self.width).marks) for fact, spoken in self._spoken.items()]

    def mark(self, facts: Mapping[str, FactValue]) -> int:
        """Return the marks of every leaf and condition; a fact that is not given is unknown."""
        marks, get = 0, facts.get
        for fact, marks_of in self._columns:
            marks |= marks_of(get(fact))
        for bit, outcome_of in self._nested:
            found = outcome_of(marks)
            marks |= (found == "fails") << bit | (found != "holds") << bit + self.width
        return marks

    def leaf_outcomes(self, marks: int) -> list[Outcome]:
        """Return the outcome of every leaf in the order written."""
        return [self._outcome(marks, bit) for bit in range(len(self.leaves))]

    def outcomes(self, marks: int) -> list[Outcome]:
        """Return the outcome of every condition in the order given."""
        return [self._outcome(marks, bit) for bit in self._conditions]

    def holding(self, marks: int) -> list[int]:
        """Return the places, counted from 0, of the conditions that hold."""
        left = ~(marks >> self.width + len(self.leaves)) & (1 << len(self._conditions)) - 1
        found = []
        while left:
            lowest = left & -left
            found.append(lowest.bit_length() - 1)
            left ^= lowest
        return found

    def _outcome(self, marks: int, bit: int) -> Outcome:
        if marks >> bit & 1:
            return "fails"
        return "undecided" if marks >> bit + self.width & 1 else "holds"

    def _take(self, condition: Condition, bit: int) -> None:
        """Have the leaves speak for a condition that needs all of them; any other is worked out from their marks."""
        if not _needs_all(condition):
            self._nested.append((bit, self._worked_out(condition)))
            return
        for leaf, against in _turned(condition):
            self._listen(leaf, bit, against)

    def _listen(self, leaf: Leaf, condition: int | None, against: bool) -> int:
        own = next(self._next_leaf)
        self._spoken.setdefault(leaf.fact.id, []).append(Speaks(leaf, own, condition, against))
        return own

    def _worked_out(self, condition: Condition) -> OutcomeOf:
        if isinstance(condition, Leaf):
            own = self._listen(condition, None, against=False)
            return lambda marks: self._outcome(marks, own)
        parts, combine = [self._worked_out(each) for each in condition.parts], COMBINE[condition.kind]
        return lambda marks: combine(part(marks) for part in parts)


def _needs_all(condition: Condition) -> bool:
    """Return whether a condition holds exactly when each of its leaves holds, or fails where it must not hold."""
    if isinstance(condition, Leaf):
        return True
    if condition.kind == "every":
        return all(map(_needs_all, condition.parts))
    return condition.kind == "none_of" and all(isinstance(each, Leaf) for each in condition.parts)


def _turned(condition: Condition, against: bool = False) -> Iterator[tuple[Leaf, bool]]:
    """Yield the leaves of such a condition, each with whether it must not hold."""
    if isinstance(condition, Leaf):
        yield condition, against
        return
    for part in condition.parts:
        yield from _turned(part, condition.kind == "none_of")
