"""The one door to the rule book."""

from dataclasses import replace
from datetime import date
from pathlib import Path

from recommender.ground.flaw import Flawed
from recommender.ground.place import whole_file
from recommender.rulebook.assemble import book_of
from recommender.rulebook.book import Rulebook
from recommender.rulebook.folders import read_folder, shipped_folder
from recommender.rulebook.gather import Gathered, gather
from recommender.rulebook.house import with_house
from recommender.rulebook.references import missing_flaws
from recommender.rulebook.sealing import seal_flaws
from recommender.rulebook.seals import SEALED, SEALED_IDS, SHIPPED


def load(house: Path | None = None, rules: Path | None = None, on: date | None = None) -> Rulebook:
    """Return the rule book, with the acts of a house folder if one is given; raises Flawed with every flaw found.

    `rules` is the folder of the shipped rules unless stated. `on` is the day the case was received, against which
    the dates of house acts are judged; without it every act is in force. Seals are checked before any house act.
    """
    folder = shipped_folder() if rules is None else rules
    gathered = gather(read_folder(folder))
    shipped = _sealed_book(gathered, folder)
    return shipped if house is None else with_house(shipped, gathered, read_folder(house), on, SEALED_IDS)


def _sealed_book(gathered: Gathered, folder: Path) -> Rulebook:
    book = book_of(gathered, SEALED_IDS)
    place = whole_file(folder.resolve().name)
    flaws = [*missing_flaws(gathered, place), *seal_flaws(book, gathered, SEALED_IDS, SEALED, place)]
    if flaws:
        raise Flawed(flaws)
    return replace(book, edited=book.fingerprint != SHIPPED)
