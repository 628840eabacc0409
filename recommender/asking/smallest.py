"""The smallest step of one thing by which nothing stands in the way any more, found by judging the case again."""

from collections.abc import Callable
from math import ceil
from typing import NamedTuple

from recommender.asking.hurdles import Hurdle

Key = tuple[str, str, str]
Tried = Callable[[int], tuple[Hurdle, ...]]
PROBE = 4
TRIES = 5
NUDGE = 1.0
TIE = 1e-9


class Step(NamedTuple):
    """A signed whole number of steps that clears everything, where one step less does not; and how often was judged."""

    steps: int
    judged: int


class Search:
    """Looks for the smallest whole step in either direction; `most` is the largest that is worth telling."""

    def __init__(self, tried: Tried, here: tuple[Hurdle, ...], most: int) -> None:
        """Begin with what stands in the way now."""
        self._tried, self._most = tried, most
        self._known: dict[int, tuple[Hurdle, ...]] = {0: here}

    def smallest(self) -> Step | None:
        """Return the smallest step that clears everything; None where none was found."""
        if not all(each.move is not None for each in self._known[0]):
            return None
        found = [each for sign in self._signs() if (each := self._towards(sign)) is not None]
        count = min(found, key=abs, default=None)
        return None if count is None else Step(count, len(self._known) - 1)

    def at(self, count: int) -> tuple[Hurdle, ...]:
        """Return what stands in the way after some steps."""
        if count not in self._known:
            self._known[count] = self._tried(count)
        return self._known[count]

    def _signs(self) -> list[int]:
        """Return the direction in which every number that has to move moves the right way; none where there is none."""
        slopes = self._slopes()
        if not all(slopes.values()):
            return []
        ahead = {(each.move or 0.0) * (slopes[_key(each)] or 0.0) > 0 for each in self._known[0]}
        return [1 if ahead.pop() else -1] if len(ahead) == 1 else []

    def _slopes(self) -> dict[Key, float | None]:
        """Return how far the number of each hurdle moves with one step."""
        steps = min(PROBE, self._most)
        after = {_key(each): each for each in self.at(steps)}
        return {_key(each): _slope(each, after.get(_key(each)), steps) for each in self._known[0]}

    def _towards(self, sign: int) -> int | None:
        """Return the smallest count in one direction: leaps by what is missing, then halving."""
        last, count = 0, self._leap(0, sign)
        for _ in range(TRIES):
            if abs(count) > self._most:
                return None
            if not self.at(count):
                return self._between(last, count)
            last, count = count, self._leap(count, sign)
        return None

    def _leap(self, here: int, sign: int) -> int:
        """Return the count at which what stands in the way here would be cleared, by how far it moved so far."""
        moves = [abs(each.move / slope) for each in self.at(here) if each.move is not None
                 and (slope := self._slope_at(here, each))]  # fmt: skip
        return here + sign * max(1, ceil(max(moves, default=NUDGE) - TIE))

    def _slope_at(self, here: int, hurdle: Hurdle) -> float | None:
        """Return how far the number of a hurdle moves with one step, from the nearest count where it stood as well."""
        met = {count: each for count, found in self._known.items() for each in found
               if count != here and _key(each) == _key(hurdle)}  # fmt: skip
        if not met:
            return self._slopes().get(_key(hurdle))
        other = min(met, key=lambda count: (abs(count - here), count))
        return _slope(met[other], hurdle, here - other)

    def _between(self, blocked: int, clear: int) -> int:
        """Return the count next to a blocked one that is clear, its neighbour first, for leaps are nearly exact."""
        sign = 1 if clear > blocked else -1
        guess = clear - sign
        while abs(clear - blocked) > 1:
            blocked, clear = (blocked, guess) if not self.at(guess) else (guess, clear)
            guess = (blocked + clear) // 2
        return clear


def _key(hurdle: Hurdle) -> Key:
    return hurdle.rule, hurdle.fact, hurdle.check.leaf.op


def _slope(before: Hurdle, after: Hurdle | None, steps: int) -> float | None:
    """Return the change of a hurdle's number with one step; where it was cleared on the way, at least what it took."""
    if before.move is None:
        return None
    if after is None:
        return before.move / steps
    return None if after.move is None else (before.move - after.move) / steps
