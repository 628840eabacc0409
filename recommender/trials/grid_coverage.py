"""Whether every row of every grid was seen to answer, and close to the limits it begins and ends at."""

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from recommender.deriving.derived import Derived
from recommender.facts.catalogue import CATALOGUE
from recommender.facts.fact import Fact
from recommender.facts.value import FactValue
from recommender.ground.place import Place
from recommender.ground.quantity import show
from recommender.logic.conditions import Operand
from recommender.logic.grids import Band
from recommender.logic.near import closeness
from recommender.rulebook.book import Rulebook
from recommender.rulebook.grid import AnswerGrid

Facts = Mapping[str, FactValue]
EXACT = 1e-9


class RowCover(NamedTuple):
    """One row of a grid: how often it alone answered, and what is missing, each with what would show it."""

    grid: str
    place: Place
    shown: str
    times: int
    missing: tuple[str, ...]


def grid_coverage(book: Rulebook, cases: Iterable[Derived] = ()) -> tuple[RowCover, ...]:
    """Return the coverage of every row of every grid by the grid's examples and by cases."""
    kept = tuple(cases)
    return tuple(
        _row(grid, index, [*(each.facts for each in grid.examples), *_seen(grid, kept)])
        for grid in book.grids.values() for index in range(len(grid.places))
    )  # fmt: skip


def _seen(grid: AnswerGrid, cases: Iterable[Derived]) -> Iterator[Facts]:
    scope = CATALOGUE[grid.answers].scope
    for derived in cases:
        if scope == "frame":
            yield derived.frame
            continue
        for side in derived.sides.values():
            facts = {**derived.frame, **side.facts}
            yield from (facts,) if scope == "side" else ({**facts, **option.facts} for option in side.options)


def _row(grid: AnswerGrid, index: int, seen: list[Facts]) -> RowCover:
    times = sum(grid.table.look_up(facts).rows == (index,) for facts in seen)
    missing = [] if times else [f"never answers alone; would be shown by {grid.row_shown(index)}"]
    for fact, end in _ends(grid, index):
        if not any(_close(facts.get(fact.id), end, fact) for facts in seen):
            missing.append(f"{fact.id} is never close to {end.shown}; would be shown by {_just_under(end, fact)}")
    return RowCover(grid.id, grid.places[index], grid.row_shown(index), times, tuple(missing))


def _ends(grid: AnswerGrid, index: int) -> Iterator[tuple[Fact, Operand]]:
    for axis, part in zip(grid.table.axes, grid.table.rows[index].parts, strict=True):
        if isinstance(part, Band):
            yield from ((axis.fact, end) for end in (part.start, part.end) if end is not None)


def _close(found: FactValue | None, end: Operand, fact: Fact) -> bool:
    if found is None or found.value is None:
        return False
    half = ((found.high or found.value) - (found.low or found.value)) / 2
    limit = float(end.value)
    return abs(found.value - limit) <= max(half, closeness(fact, limit)) + EXACT


def _just_under(end: Operand, fact: Fact) -> str:
    limit = float(end.value)
    return show(limit - closeness(fact, limit) / 2, fact.unit)
