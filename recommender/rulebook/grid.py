"""A decision table of the book: what it answers, what it asks, and its rows."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from recommender.facts.value import FactValue
from recommender.ground.place import Place
from recommender.logic.grids import Band, Grid, Part
from recommender.rulebook.stock import Source


class GridExample(NamedTuple):
    """Facts (those left out are unknown) and the answer they must give, `undecided` where they give several."""

    name: str
    facts: Mapping[str, FactValue]
    expect: str


@dataclass(frozen=True, slots=True)
class AnswerGrid:
    """A table that answers one fact from others; `places` are those of its rows."""

    id: str
    title: str
    answers: str
    table: Grid
    source: Source
    place: Place
    layer: str
    examples: tuple[GridExample, ...]
    places: tuple[Place, ...]

    @property
    def inputs(self) -> tuple[str, ...]:
        """Return the ids of the facts it asks."""
        return tuple(axis.fact.id for axis in self.table.axes)

    @property
    def words(self) -> tuple[str, ...]:
        """Return every answer it may give, each once, in the order of the rows."""
        return tuple(dict.fromkeys(row.answer for row in self.table.rows))

    @property
    def limits(self) -> tuple[str, ...]:
        """Return the ids of the limits its ranges begin and end at, each once."""
        bands = (part for row in self.table.rows for part in row.parts if isinstance(part, Band))
        ends = (end for band in bands for end in (band.start, band.end))
        return tuple(dict.fromkeys(end.limit for end in ends if end is not None and end.limit is not None))

    def row_shown(self, index: int) -> str:
        """Return a row as people read it."""
        row = self.table.rows[index]
        parts = (f"{axis.fact.id} {part_shown(part)}" for axis, part in zip(self.table.axes, row.parts, strict=True)
                 if part is not None)  # fmt: skip
        return f"{', '.join(parts) or 'anything'}: {row.answer.replace('_', ' ')}"


def answered_by(fact: str, grids: Mapping[str, AnswerGrid]) -> AnswerGrid | None:
    """Return the grid that answers a fact, None where none does."""
    return next((grid for grid in grids.values() if grid.answers == fact), None)


def part_shown(part: Part) -> str:
    """Return one cell of a row as people read it."""
    if part is None:
        return "anything"
    if not isinstance(part, Band):
        return " or ".join(str(each).lower() if isinstance(each, bool) else each for each in part.words)
    ends = (f"{word} {end.shown}" for word, end in (("from", part.start), ("to under", part.end)) if end is not None)
    return " ".join(ends).removeprefix("to ")
