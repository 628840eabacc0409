"""Every flaw of the rule book at once: what loading finds, then what only the book as a whole shows."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import NamedTuple

from recommender.checking.looked import Looked
from recommender.checking.pruning import Settled
from recommender.checking.registry import CHECKS
from recommender.ground.flaw import Flaw, Flawed
from recommender.ground.place import whole_file
from recommender.reading.document import Document
from recommender.rulebook.assemble import book_of
from recommender.rulebook.book import Rulebook
from recommender.rulebook.folders import read_what_can_be, shipped_folder
from recommender.rulebook.gather import Gathered, gather
from recommender.rulebook.house import with_house
from recommender.rulebook.references import missing_flaws
from recommender.rulebook.sealing import seal_flaws
from recommender.rulebook.seals import SEALED, SEALED_IDS, SHIPPED


class Checked(NamedTuple):
    """Every flaw found, sorted by place, and the book as far as it could be made."""

    flaws: tuple[Flaw, ...]
    book: Rulebook | None

    @property
    def errors(self) -> int:
        """Return how many flaws keep the book from being used."""
        return sum(each.level == "error" for each in self.flaws)


def check_folders(house: Path | None = None, rules: Path | None = None, on: date | None = None) -> Checked:
    """Return every flaw of the shipped rules, or those of another folder, and of a house folder."""
    folder = shipped_folder() if rules is None else rules
    documents, flaws = read_what_can_be(folder)
    shipped = Settled(documents)
    shipped.dropped |= {each.place.file for each in flaws}
    own, house_flaws = ([], []) if house is None else read_what_can_be(house)
    found = check_documents(shipped, own, folder.resolve().name, on)
    return Checked(_sorted([*flaws, *house_flaws, *found.flaws]), found.book)


def check_documents(
    shipped: Settled, house: Iterable[Document], folder: str | None, on: date | None = None,
    sealed: Iterable[str] = SEALED_IDS,
) -> Checked:
    """Return every flaw of files already read.

    `folder` is where something missing from the released book is told of; None for a book that was never released.
    """
    ids = tuple(sealed)
    made = shipped.make(lambda documents: _book(documents, ids, "" if shipped.ran_examples else "shipped"))
    if made is None:
        return Checked(_sorted(shipped.flaws), None)
    gathered, book = made
    if folder is not None:
        place = whole_file(folder)
        left = [each for each in ids if each not in shipped.dropped]
        shipped.keep([*missing_flaws(gathered, place), *seal_flaws(book, gathered, left, SEALED, place)])
    own = Settled(house)
    own.dropped |= shipped.dropped
    effective = own.make(lambda documents: with_house(book, gathered, documents, on, ids)) or book
    flaws = [*shipped.flaws, *own.flaws]
    looked = Looked(effective, _by_name(shipped.documents, own.documents), not flaws, on)
    return Checked(_sorted([*flaws, *_looked_at(looked)]), effective)


def _book(documents: tuple[Document, ...], sealed: tuple[str, ...], run: str) -> tuple[Gathered, Rulebook]:
    gathered = gather(documents)
    book = book_of(gathered, sealed, run)
    return gathered, replace(book, edited=book.fingerprint != SHIPPED)


def _looked_at(looked: Looked) -> list[Flaw]:
    return [flaw for check in CHECKS for flaw in check.flaws(looked) if looked.whole or not check.needs_whole]


def _by_name(*groups: tuple[Document, ...]) -> dict[str, Document]:
    return {document.file: document for group in groups for document in group}


def _sorted(flaws: Iterable[Flaw]) -> tuple[Flaw, ...]:
    return Flawed(flaws).flaws
