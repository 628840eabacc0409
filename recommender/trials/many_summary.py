"""What many judged cases have in common, counted line by line."""

import json
from collections import Counter
from typing import Any

from recommender.ground.flaw import Flaw, Flawed
from recommender.ground.place import whole_file

MOST_NAMED = 20


class Summary:
    """Counts over the lines of a sweep; its size does not grow with their number.

    `reasons` counts the cases each rule stopped, by title; `questions` the cases in which a fact is open, by name;
    `signs` are cases that were not judged and name signs of damage, the first of them with their words.
    """

    def __init__(self) -> None:
        """Start with nothing counted."""
        self.cases = 0
        self.not_judged = 0
        self.verdicts: Counter[str] = Counter()
        self.reasons: Counter[str] = Counter()
        self.questions: Counter[str] = Counter()
        self.signs: list[tuple[str, tuple[str, ...]]] = []
        self.with_signs = 0

    def count(self, line: str) -> None:
        """Add one line; raises Flawed when it is no line of a sweep."""
        try:
            self._count(json.loads(line))
        except (ValueError, KeyError, TypeError, AttributeError):
            raise Flawed([_no_line(line)]) from None

    def _count(self, told: dict[str, Any]) -> None:
        self.cases += 1
        if "frame" not in told:
            self._count_refused(told["source"], told["signs"])
            return
        self.verdicts[told["frame"]["verdict"]] += 1
        sides = told["sides"].values()
        self.reasons.update({title for side in sides for title in side["stopped_by"].values()})
        self.questions.update({each["name"] for each in told["questions"]})

    def _count_refused(self, source: str, signs: list[str]) -> None:
        self.not_judged += 1
        if signs:
            self.with_signs += 1
            if len(self.signs) < MOST_NAMED:
                self.signs.append((source, tuple(signs)))


def _no_line(line: str) -> Flaw:
    message = f"this is no line of a sweep: {line[:60]}"
    return Flaw("sweep.output", whole_file("output"), message, "Move that file away and sweep into a new one.")
