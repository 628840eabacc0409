"""Decision tables: two to four inputs, one answer, and the proof that they have neither gaps nor overlaps."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise, product
from math import inf
from typing import NamedTuple, TypeAlias

from recommender.facts.fact import Fact
from recommender.facts.value import FactValue, Word
from recommender.logic.conditions import Operand
from recommender.logic.margins import interval

FEWEST_INPUTS, MOST_INPUTS = 2, 4


@dataclass(frozen=True, slots=True)
class Band:
    """A range of numbers, the low end included and the high end not; None where it goes on without end."""

    start: Operand | None
    end: Operand | None

    @property
    def span(self) -> tuple[float, float]:
        """Return both ends as numbers."""
        return (
            -inf if self.start is None else float(self.start.value), inf if self.end is None else float(self.end.value)
        )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Words:
    """One or more words."""

    words: tuple[Word, ...]


Part: TypeAlias = Band | Words | None
Cell: TypeAlias = tuple[float, float] | Word
Cells: TypeAlias = tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Axis:
    """One input: a fact, with all words it may take; a number takes every value."""

    fact: Fact
    words: tuple[Word, ...] = ()


@dataclass(frozen=True, slots=True)
class Row:
    """One row: a part of each axis in their order (None: the whole axis), and the answer."""

    parts: tuple[Part, ...]
    answer: str


class Answer(NamedTuple):
    """Every answer the facts may lead to, and the numbers of the rows behind them, from 0."""

    words: tuple[str, ...]
    rows: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Grid:
    """A decision table; use it only when `gaps` and `overlaps` find nothing."""

    axes: tuple[Axis, ...]
    rows: tuple[Row, ...]

    def look_up(self, facts: Mapping[str, FactValue]) -> Answer:
        """Return what the table answers; several answers when the facts may lie in rows that differ.

        An unknown fact may lie anywhere; a number anywhere in the interval that decides, with
        room for its sampling errors.
        """
        found = [facts.get(axis.fact.id) for axis in self.axes]
        rows = tuple(index for index, row in enumerate(self.rows)
                     if all(map(_may_lie, found, row.parts, self.axes)))  # fmt: skip
        return Answer(tuple(dict.fromkeys(self.rows[index].answer for index in rows)), rows)


def gaps(grid: Grid) -> Iterator[Cells]:
    """Yield the parts of the axes that no row covers, put together where they touch."""
    pieces = [cells_of(grid, index) for index in range(len(grid.axes))]
    left = [cells for cells in product(*pieces) if not any(covers(row, cells) for row in grid.rows)]
    for index in range(len(grid.axes)):
        left = list(_joined(left, index))
    yield from left


def overlaps(grid: Grid) -> Iterator[tuple[int, int, Cells]]:
    """Yield every two rows that cover the same, by number from 0, and the first piece of the axes they share."""
    pieces = [cells_of(grid, index) for index in range(len(grid.axes))]
    held = [[[cell for cell in cells if _holds(part, cell)] for part, cells in zip(row.parts, pieces, strict=True)]
            for row in grid.rows]  # fmt: skip
    for (one, first), (two, second) in combinations(enumerate(held), 2):
        shared = [[cell for cell in mine if cell in others][:1] for mine, others in zip(first, second, strict=True)]
        if all(shared):
            yield one, two, tuple(cell for (cell,) in shared)


def idle_axes(grid: Grid) -> Iterator[int]:
    """Yield every input, by number from 0, on which the answer never depends."""
    for index in range(len(grid.axes)):
        seen: dict[Cells, set[str]] = {}
        for cells in product(*(cells_of(grid, each) for each in range(len(grid.axes)))):
            rest = (*cells[:index], *cells[index + 1 :])
            seen.setdefault(rest, set()).update(row.answer for row in grid.rows if covers(row, cells))
        if all(len(answers) == 1 for answers in seen.values()):
            yield index


def cells_of(grid: Grid, index: int) -> list[Cell]:
    """Return the smallest pieces of an axis that no row cuts."""
    if grid.axes[index].fact.kind != "number":
        return list(grid.axes[index].words)
    ends = {end for row in grid.rows if isinstance(part := row.parts[index], Band) for end in part.span}
    return list(pairwise(sorted({-inf, inf, *ends})))


def covers(row: Row, cells: Sequence[Cell]) -> bool:
    """Return whether a row holds throughout a piece of the axes."""
    return all(_holds(part, cell) for part, cell in zip(row.parts, cells, strict=True))


def _holds(part: Part, cell: Cell) -> bool:
    if isinstance(part, Band) and isinstance(cell, tuple):
        low, high = part.span
        return low <= cell[0] and cell[1] <= high
    return part is None or (isinstance(part, Words) and cell in part.words)


def _may_lie(found: FactValue | None, part: Part, axis: Axis) -> bool:
    if found is None or not found.known:
        return True
    if axis.fact.kind != "number":
        return (part is None and found.word in axis.words) or (isinstance(part, Words) and found.word in part.words)
    ends = interval(found)
    if ends is None or not isinstance(part, Band):
        return True
    low, high = part.span
    return ends.most >= low and ends.least < high


def _joined(left: list[Cells], index: int) -> Iterator[Cells]:
    """Yield pieces with neighbours along an axis put together: of numbers only, words stay apart."""
    waiting = sorted(left, key=lambda cells: (str((*cells[:index], *cells[index + 1 :])), _start(cells[index])))
    while waiting:
        cells = waiting.pop(0)
        while waiting and _touch(cells, waiting[0], index):
            cells = (*cells[:index], _together(cells[index], waiting.pop(0)[index]), *cells[index + 1 :])
        yield cells


def _together(one: Cell, two: Cell) -> Cell:
    return (one[0], two[1]) if isinstance(one, tuple) and isinstance(two, tuple) else one


def _start(cell: Cell) -> tuple[float, str]:
    return (cell[0], "") if isinstance(cell, tuple) else (0.0, str(cell))


def _touch(one: Cells, two: Cells, index: int) -> bool:
    first, second = one[index], two[index]
    same = all(one[each] == two[each] for each in range(len(one)) if each != index)
    return same and isinstance(first, tuple) and isinstance(second, tuple) and first[1] == second[0]
