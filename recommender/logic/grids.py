"""Decision tables: two to four inputs, one answer, proven complete and free of overlaps."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise, product
from typing import TypeAlias

from recommender.facts.value import FactValue

FEWEST_INPUTS, MOST_INPUTS = 2, 4
Cell: TypeAlias = tuple[float, float] | str


@dataclass(frozen=True, slots=True)
class Band:
    """A range of numbers, the low end included and the high end not, the end of the axis included."""

    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Words:
    """One or more words."""

    words: tuple[str, ...]


Part: TypeAlias = Band | Words | None


@dataclass(frozen=True, slots=True)
class Axis:
    """One input: a fact with the span of its numbers, or with all its words."""

    fact: str
    span: Band | Words


@dataclass(frozen=True, slots=True)
class Row:
    """One row: a part of each axis in their order (None: the whole axis), and the answer."""

    parts: tuple[Part, ...]
    answer: str


@dataclass(frozen=True, slots=True)
class Grid:
    """A decision table; raises ValueError, listing everything wrong, when it has a gap or an overlap."""

    axes: tuple[Axis, ...]
    rows: tuple[Row, ...]

    def __post_init__(self) -> None:
        """Prove the table."""
        wrong = list(_shape(self)) or list(_gaps_and_overlaps(self))
        if wrong:
            raise ValueError("; ".join(wrong))

    def look_up(self, facts: Mapping[str, FactValue]) -> str:
        """Return the answer all cells agree on that the facts may lie in, `undecided` when they do not.

        An unknown fact may lie anywhere; a number may lie anywhere in its 95 % interval.
        """
        if any(_outside(facts.get(axis.fact), axis.span) for axis in self.axes):
            return "undecided"
        touched = [
            [cell for cell in _cells(self, index) if _may_lie(facts.get(axis.fact), cell, axis.span)]
            for index, axis in enumerate(self.axes)
        ]
        answers = {row.answer for cells in product(*touched) for row in self.rows if _covers(row, cells)}
        return answers.pop() if len(answers) == 1 else "undecided"


def _shape(grid: Grid) -> Iterator[str]:
    if not FEWEST_INPUTS <= len(grid.axes) <= MOST_INPUTS:
        yield f"a table has {FEWEST_INPUTS} to {MOST_INPUTS} inputs, not {len(grid.axes)}"
    for number, row in enumerate(grid.rows, 1):
        if len(row.parts) != len(grid.axes):
            yield f"row {number} has {len(row.parts)} parts for {len(grid.axes)} inputs"
            continue
        for part, axis in zip(row.parts, grid.axes, strict=True):
            if not _within(part, axis.span):
                yield f"row {number} leaves the range of {axis.fact}"


def _within(part: Part, span: Band | Words) -> bool:
    if isinstance(part, Band) and isinstance(span, Band):
        return span.low <= part.low < part.high <= span.high
    if isinstance(part, Words) and isinstance(span, Words):
        return set(part.words) <= set(span.words)
    return part is None


def _gaps_and_overlaps(grid: Grid) -> Iterator[str]:
    for cells in product(*(_cells(grid, index) for index in range(len(grid.axes)))):
        covering = [number for number, row in enumerate(grid.rows, 1) if _covers(row, cells)]
        if len(covering) != 1:
            rows = " and ".join(map(str, covering))
            yield f"rows {rows} overlap at {_named(grid, cells)}" if covering else f"no row at {_named(grid, cells)}"


def _cells(grid: Grid, index: int) -> list[Cell]:
    """Return the smallest pieces of an axis that no row cuts."""
    span = grid.axes[index].span
    if isinstance(span, Words):
        return list(span.words)
    bands = [part for row in grid.rows if isinstance(part := row.parts[index], Band)]
    cuts = sorted({span.low, span.high, *(end for band in bands for end in (band.low, band.high))})
    return list(pairwise(cuts))


def _covers(row: Row, cells: Sequence[Cell]) -> bool:
    return all(_holds(part, cell) for part, cell in zip(row.parts, cells, strict=True))


def _holds(part: Part, cell: Cell) -> bool:
    if isinstance(part, Band) and not isinstance(cell, str):
        return part.low <= cell[0] and cell[1] <= part.high
    return part is None or (isinstance(part, Words) and cell in part.words)


def _outside(found: FactValue | None, span: Band | Words) -> bool:
    if found is None or not found.known:
        return False
    if isinstance(span, Words) or found.low is None or found.high is None:
        return isinstance(span, Band) or found.word not in span.words
    return not span.low <= found.low <= found.high <= span.high


def _may_lie(found: FactValue | None, cell: Cell, span: Band | Words) -> bool:
    if found is None or not found.known:
        return True
    if isinstance(cell, str) or isinstance(span, Words) or found.low is None or found.high is None:
        return found.word == cell
    return found.high >= cell[0] and (found.low < cell[1] or cell[1] == span.high)


def _named(grid: Grid, cells: Sequence[Cell]) -> str:
    return ", ".join(
        f"{axis.fact} {cell if isinstance(cell, str) else f'{cell[0]:g} to {cell[1]:g}'}"
        for axis, cell in zip(grid.axes, cells, strict=True)
    )
