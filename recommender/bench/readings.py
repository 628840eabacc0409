"""Readings as a bench sheet has them, and the same readings one by one."""

import re
from collections.abc import Iterator
from functools import cached_property
from typing import Annotated, Any, Literal, NamedTuple

from pydantic import AfterValidator, BeforeValidator, Field, FiniteFloat, model_validator

from recommender.bench.quantities import Many, Name
from recommender.reading.model import Model

Path = tuple[str | int, ...]
WHOLE_ROW = "every"
NUMBER = re.compile(r"[0-9]{1,9}(?:\.[0-9]{1,20})?")


def _number_key(key: str) -> str:
    if not NUMBER.fullmatch(key):
        raise ValueError(
            f"`{key}` is not a plain number; write depths in mm and turns in degrees, without unit"
        )
    return key


def _cell(given: Any) -> Any:
    return given if isinstance(given, list | tuple) else (given,)


def _spans(given: Any) -> Any:
    return {WHOLE_ROW: given} if isinstance(given, list | tuple) else given


def _strikes(given: Any) -> Any:
    if not isinstance(given, dict):
        return given
    return {depth: {WHOLE_ROW: each} if isinstance(each, str) else each for depth, each in given.items()}


def _millimetres(unit: Any) -> Any:
    if unit != "mm":
        raise ValueError(f"readings are read in mm, not in `{unit}`; convert them and write `unit: mm`")
    return unit


Cell = Annotated[Many[FiniteFloat], BeforeValidator(_cell), Field(min_length=1)]
NumberKey = Annotated[str, AfterValidator(_number_key)]
RowKey = Annotated[str, AfterValidator(lambda key: key if key == WHOLE_ROW else _number_key(key))]
Span = Annotated[Many[FiniteFloat], Field(min_length=2, max_length=2)]
Row = Annotated[Many[Cell], Field(min_length=1)]
Pair = Annotated[Many[FiniteFloat], Field(min_length=2, max_length=2)]
Points = Annotated[dict[NumberKey, Annotated[Many[Pair], Field(min_length=1)]], Field(min_length=1)]
Turn = Annotated[float, Field(ge=0, lt=360)]


class Readings(Model):
    """What one instrument read in one bore: a grid (`turns` and `at`), `spans`, `loose` readings, or a scan's points.

    All values in mm; depths in mm from the side's face, turns in degrees clockwise seen from that face, 0 at
    the down tube. A struck reading keeps its value, with the reason; `struck_all` strikes the whole block.
    """

    instrument: Name
    unit: Annotated[Literal["mm"], BeforeValidator(_millimetres)]
    turns: Many[Turn] | None = Field(default=None, description="turn of each column of `at`, degrees")
    at: Annotated[dict[NumberKey, Row], Field(min_length=1)] | None = Field(
        default=None, description="a row of readings per depth; a list in a cell holds repeats"
    )
    spans: Annotated[dict[RowKey, Span], BeforeValidator(_spans), Field(min_length=1)] | None = Field(
        default=None, description="smallest and largest while turning, per depth or as one list without depth"
    )
    loose: Row | None = Field(default=None, description="readings without depth and turn")
    scan: Points | None = Field(
        default=None, description="points of a scan per depth, each with turn (degrees) and radius"
    )
    points: Points | None = Field(
        default=None, description="points per depth as x (towards turn 0) and y (towards turn 90)"
    )
    struck: Annotated[dict[NumberKey, dict[RowKey, Name]], BeforeValidator(_strikes)] = Field(
        default_factory=dict, description="reasons by depth and turn, or by depth alone"
    )
    struck_all: Name | None = Field(
        default=None, description="reason for striking every reading of this block"
    )
    note: str = ""

    @model_validator(mode="after")
    def _one_form(self) -> "Readings":
        forms = (self.at, self.spans, self.loose, self.scan, self.points)
        if sum(form is not None for form in forms) != 1:
            raise ValueError(
                "a block holds one form of readings; "
                "write one of `at` (with `turns`), `spans`, `loose`, `scan` or `points`"
            )
        if (self.at is None) != (self.turns is None):
            raise ValueError("`at` and `turns` go together; without turns write `spans` or `loose`")
        return self

    def strike(self, depth: str | None, turn: float | None) -> str | None:
        """Return why the reading at this depth key and turn was struck, None if it stands."""
        if self.struck_all is not None or depth in (None, WHOLE_ROW):
            return self.struck_all
        here = self._struck_at.get(float(depth or 0), {})
        named = [here[each] for each in {None, turn} if each in here]
        return min(named)[1] if named else None

    @cached_property
    def _struck_at(self) -> dict[float, dict[float | None, tuple[int, str]]]:
        """Return strikes by depth, then by turn (None: every one), with their order: `5` and `5.0` name one place."""
        found: dict[float, dict[float | None, tuple[int, str]]] = {}
        rows = ((float(depth), turn, reason) for depth, row in self.struck.items() for turn, reason in row.items())
        for order, (depth, turn, reason) in enumerate(rows):
            at = None if turn == WHOLE_ROW else float(turn)
            found.setdefault(depth, {}).setdefault(at, (order, reason))
        return found


class ReadingPoint(NamedTuple):
    """One reading: value in mm, depth in mm from the face, turn in degrees, the reason if it was struck."""

    value: float
    instrument: str
    depth: float | None
    turn: float | None
    repeat: int
    struck: str | None
    path: Path


class SpanPoint(NamedTuple):
    """Smallest and largest reading of one full turn, in mm, at a depth in mm from the face or somewhere."""

    smallest: float
    largest: float
    instrument: str
    depth: float | None
    struck: str | None
    path: Path


def points(block: Readings, path: Path) -> Iterator[ReadingPoint]:
    """Yield every reading of a block's grid or loose list, struck ones too, in the order of the sheet."""
    for depth, row in (block.at or {}).items():
        for turn, column in zip(block.turns or (), range(len(row)), strict=False):
            yield from _cell_points(block, row[column], depth, turn, (*path, "at", depth, column))
    for index, cell in enumerate(block.loose or ()):
        yield from _cell_points(block, cell, None, None, (*path, "loose", index))


def spans(block: Readings, path: Path) -> Iterator[SpanPoint]:
    """Yield every span of a block, struck ones too, in the order of the sheet."""
    for depth, (smallest, largest) in (block.spans or {}).items():
        known = depth != WHOLE_ROW
        yield SpanPoint(
            smallest,
            largest,
            block.instrument,
            float(depth) if known else None,
            block.strike(depth, None),
            (*path, "spans", depth) if known else (*path, "spans"),
        )


def _cell_points(
    block: Readings, cell: tuple[float, ...], depth: str | None, turn: float | None, path: Path
) -> Iterator[ReadingPoint]:
    struck = block.strike(depth, turn)
    at = None if depth is None else float(depth)
    for repeat, value in enumerate(cell):
        where = path if len(cell) == 1 else (*path, repeat)
        yield ReadingPoint(value, block.instrument, at, turn, repeat, struck, where)
