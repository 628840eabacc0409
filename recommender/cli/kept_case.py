"""The case inside a kept record, judged by the book of today where that is still the same."""

from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from recommender.cli.house import Books

if TYPE_CHECKING:
    from recommender.bench.load import LoadedCase
    from recommender.deciding.answer import Advice
    from recommender.rulebook.book import Rulebook


class KeptCase(NamedTuple):
    """The advice of a record as it was given, its case as read today, and the book of the day it was received."""

    advice: "Advice"
    loaded: "LoadedCase"
    book: "Rulebook"
    same_book: bool


def kept_case(path: Path, books: Books) -> KeptCase:
    """Return what a record holds; raises Flawed when it cannot be relied on or its case cannot be read any more."""
    from recommender.deriving.words import word_flaws
    from recommender.ground.flaw import Flawed
    from recommender.records.case_text import load_case_text
    from recommender.records.record import file_shown
    from recommender.records.restore import advice_from
    from recommender.records.store import read_record

    record = read_record(path)
    loaded = load_case_text(record.content.case_text, file_shown(record.content.case))
    book = books.on(loaded.case.received)
    if unknown := word_flaws(loaded, book):
        raise Flawed(unknown)
    same = book.fingerprint == record.content.book.fingerprint
    return KeptCase(advice_from(record.content.advice), loaded, book, same)
