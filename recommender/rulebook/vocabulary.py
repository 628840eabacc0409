"""Which words a fact may take, and which word lists stand behind it."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from recommender.facts.fact import Fact
from recommender.rulebook.book import Rulebook
from recommender.rulebook.grid import answered_by

if TYPE_CHECKING:
    from recommender.rulebook.gather import Gathered

# These facts take the ids of a section of the book instead of words of their own.
FROM_SECTION = {
    "frame.candidates": "standards", "frame.standard": "standards", "fit.class": "fit_classes",
    "compound.class": "compounds",
}  # fmt: skip
DAMAGE_LISTS = ("signs", "places", "looks")


def words_of(fact: Fact, gathered: "Gathered | Rulebook") -> tuple[str, ...]:
    """Return the words a fact may take; ids of the book sorted, so that the order of files and keys counts nowhere."""
    section = FROM_SECTION.get(fact.id)
    if fact.by_grid:
        return _answers(fact.id, gathered)
    return tuple(sorted(getattr(gathered, section))) if section else fact.words


def _answers(fact: str, book: "Gathered | Rulebook") -> tuple[str, ...]:
    """Return every answer of the grid that answers a fact, none where there is no such grid."""
    if isinstance(book, Rulebook):
        grid = answered_by(fact, book.grids)
        return () if grid is None else grid.words
    written = (row.gives for entry in book.grids.values() if entry.model.answers == fact for row in entry.model.rows)
    return tuple(dict.fromkeys((*written, *book.retired.get(fact, ()))))


def lists_behind(fact: str, words: Mapping[str, Mapping[str, str]]) -> dict[str, list[str]]:
    """Return the word lists a fact rests on: what may be seen, where, and how it was looked for."""
    if not fact.startswith("damage."):
        return {}
    return {name: sorted(words.get(name, {})) for name in DAMAGE_LISTS}
