"""The one door to the rule book."""

from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from recommender.ground.place import whole_file
from recommender.reading.shipped import shipped_rules
from recommender.rulebook.book import Rulebook
from recommender.rulebook.canonical import fingerprint
from recommender.rulebook.kept import keep, key_of, recalled
from recommender.rulebook.sealing import seal_flaws, seals
from recommender.rulebook.seals import SEALED, SEALED_IDS, SHIPPED

# Reading rule files needs YAML and all models of their sections; a kept book needs neither.
if TYPE_CHECKING:
    from recommender.reading.document import Document
    from recommender.rulebook.gather import Gathered


def load(house: Path | None = None, rules: Path | None = None, on: date | None = None) -> Rulebook:
    """Return the rule book, with the acts of a house folder if one is given; raises Flawed with every flaw found.

    `rules` is the folder of the shipped rules unless stated. `on` is the day the case was received, against which
    the dates of house acts are judged; without it every act is in force. Seals are checked before any house act.
    """
    folder = shipped_rules() if rules is None else rules
    if house is None:
        return _kept(folder)
    from recommender.rulebook.house import with_house

    gathered = _gathered(folder)
    return with_house(_sealed_book(gathered, folder), gathered, _read(house), on, SEALED_IDS)


def _kept(folder: Path) -> Rulebook:
    """Return the book of a folder as it was kept; where it was not, or fails a check, read the files again."""
    key = key_of(folder)
    found = None if key is None else recalled(key)
    if found is not None and _passes(found):
        return found
    book = _sealed_book(_gathered(folder), folder)
    if key is not None:
        keep(key, book)
    return book


def _passes(kept: Rulebook) -> bool:
    """Return whether a kept book is what it says it is, with every sealed rule as it was released."""
    found = fingerprint(kept)
    released = seals(kept, SEALED_IDS) == {name: SEALED.get(name) for name in SEALED_IDS}
    return released and kept.fingerprint == found and kept.edited == (found != SHIPPED)


def _gathered(folder: Path) -> "Gathered":
    from recommender.rulebook.gather import gather

    return gather(_read(folder))


def _read(folder: Path) -> "list[Document]":
    from recommender.rulebook.folders import read_folder

    return read_folder(folder)


def _sealed_book(gathered: "Gathered", folder: Path) -> Rulebook:
    from recommender.ground.flaw import Flawed
    from recommender.rulebook.assemble import book_of
    from recommender.rulebook.references import missing_flaws

    book = book_of(gathered, SEALED_IDS)
    place = whole_file(folder.resolve().name)
    flaws = [*missing_flaws(gathered, place), *seal_flaws(book, gathered, SEALED_IDS, SEALED, place)]
    if flaws:
        raise Flawed(flaws)
    return replace(book, edited=book.fingerprint != SHIPPED)
