"""Kept records judged again by the present rules and engine: whether each still stands, and what changed."""

from collections.abc import Callable, Iterable
from datetime import date
from typing import Any, NamedTuple

from recommender.advice import advise
from recommender.ground.flaw import Flaw, Flawed
from recommender.records.case_text import load_case_text
from recommender.records.difference import Change, Difference, difference
from recommender.records.record import Record, file_shown, record_of
from recommender.rulebook.book import Rulebook

FORMAT = "borewright/replay/1"
BookOn = Callable[[date], Rulebook]


class Replayed(NamedTuple):
    """What became of a record: what differs now, or the flaws for which its case is refused today."""

    record: str
    difference: Difference | None
    flaws: tuple[Flaw, ...] = ()

    @property
    def stands(self) -> bool:
        """Return whether the same would be decided today, on the same numbers."""
        return self.difference is not None and self.difference.stands


def replay(record: Record, books: BookOn) -> Replayed:
    """Return whether a record still stands: its case text judged by the book in force when the frame was received."""
    try:
        return Replayed(record.id, difference(record.content, judged_again(record, books).content))
    except Flawed as refused:
        return Replayed(record.id, None, refused.flaws)


def judged_again(record: Record, books: BookOn) -> Record:
    """Return the record the case text of a record would make today; raises Flawed when it cannot be judged."""
    loaded = load_case_text(record.content.case_text, file_shown(record.content.case))
    book = books(loaded.case.received)
    return record_of(loaded, advise(loaded, book), book)


def replayed_data(replayed: Replayed) -> dict[str, Any]:
    """Return a replay as plain data: record, whether it stands, what differs, or the flaws of its case."""
    head: dict[str, Any] = {"format": FORMAT, "record": replayed.record, "stands": replayed.stands}
    if replayed.difference is None:
        return {**head, "flaws": [{"place": str(each.place), "message": each.message} for each in replayed.flaws]}
    found = replayed.difference
    changes = {
        "limits": found.book.limits, "rules": found.book.rules, "other_entries": found.book.others,
        "engine": (found.engine,) if found.engine else (), "verdicts": found.verdicts, "outcomes": found.outcomes,
        "facts": found.facts,
    }  # fmt: skip
    return {**head, "case_changed": bool(found.case)} | {key: _plain(each) for key, each in changes.items()}


def _plain(changes: Iterable[Change]) -> list[dict[str, str]]:
    return [each._asdict() for each in changes]
