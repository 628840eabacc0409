"""Flaws of the rule book as text and as JSON."""

import json
from collections import Counter
from collections.abc import Iterable, Sequence

from recommender.ground.flaw import Flaw, Level

ORDER: tuple[Level, ...] = ("error", "warning", "note")


def flaws_json(flaws: Iterable[Flaw]) -> str:
    """Return the flaws as one JSON list, each with its check, level, place with end, message and advice."""
    return json.dumps([_plain(each) for each in flaws], indent=2)


def counted(flaws: Sequence[Flaw]) -> str:
    """Return how many flaws of each level there are, in words; `no flaws` when there are none to speak of."""
    found = Counter(each.level for each in flaws)
    told = [f"{found[level]} {level}{'s' if found[level] != 1 else ''}" for level in ORDER if found[level]]
    return ", ".join(told) or "no flaws"


def _plain(flaw: Flaw) -> dict[str, object]:
    place = flaw.place
    return {
        "check": flaw.check, "level": flaw.level, "file": place.file, "line": place.line, "column": place.column,
        "end_line": place.end_line, "end_column": place.end_column, "message": flaw.message, "advice": flaw.advice,
    }  # fmt: skip
