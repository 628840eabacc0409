"""The bench sheet: one row per reading, to be filled in at the bench; from and to the case's blocks of readings."""

import csv
from collections.abc import Iterable
from decimal import Decimal
from io import StringIO
from typing import Literal, NamedTuple

from recommender.bench.case import Case
from recommender.bench.frame import SideName
from recommender.bench.readings import ReadingPoint, SpanPoint, points, spans
from recommender.bench.sides import Side

COLUMNS = ("side", "instrument", "depth_mm", "turn_deg", "reading_mm", "note")
HOW = (
    "depth from that side's face; turn in degrees clockwise seen from that face, 0 at the down tube, or smallest and"
    " largest while turning; a note that starts with `struck:` strikes the reading and keeps it"
)
STRUCK = "struck:"
MORE = " | "
DECIMALS = 3
End = Literal["smallest", "largest"]
ENDS: tuple[End, End] = ("smallest", "largest")


class SheetRow(NamedTuple):
    """One reading to take or taken: depth in mm, turn in degrees or the end of a full turn, reading in mm.

    None where depth or turn is not known, or the reading not taken yet. `struck` is the reason, empty if it stands.
    """

    side: SideName
    instrument: str
    depth: float | None
    turn: float | End | None
    reading: float | None = None
    struck: str = ""
    note: str = ""


class BenchSheet(NamedTuple):
    """The sheet of one case; `case` is its id, empty for a sheet that belongs to none yet."""

    case: str
    rows: tuple[SheetRow, ...]


def write_sheet(sheet: BenchSheet) -> str:
    """Return the sheet as CSV text (RFC 4180): case id, how to fill it in, names of the columns, a line per reading."""
    out = StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerows([("case", sheet.case), ("unit", "mm"), ("how", HOW), COLUMNS])
    writer.writerows(_cells(row) for row in sheet.rows)
    return out.getvalue()


def sheet_of(case: Case) -> BenchSheet:
    """Return every reading of a case as a sheet, struck ones too."""
    return BenchSheet(case.case, (*_rows_of("drive", case.sides.drive), *_rows_of("non_drive", case.sides.non_drive)))


def number_text(value: float, decimals: int = 0) -> str:
    """Return a number in full, so that it reads back the same, without exponent and with at least so many decimals."""
    whole, _, rest = format(Decimal(repr(value)), "f").partition(".")
    rest = rest.rstrip("0").ljust(decimals, "0")
    return f"{whole}.{rest}" if rest else whole


def _cells(row: SheetRow) -> tuple[str, ...]:
    turn = row.turn if isinstance(row.turn, str) else _optional(row.turn)
    note = f"{STRUCK} {row.struck}{MORE if row.note else ''}{row.note}" if row.struck else row.note
    return (row.side, row.instrument, _optional(row.depth), turn, _optional(row.reading, DECIMALS), note)


def _optional(value: float | None, decimals: int = 0) -> str:
    return "" if value is None else number_text(value, decimals)


def _rows_of(name: SideName, side: Side) -> Iterable[SheetRow]:
    for block in side.readings:
        rows = [_of_point(name, each) for each in points(block, ())]
        rows += [row for each in spans(block, ()) for row in _of_span(name, each)]
        yield from (row._replace(note="" if index else block.note) for index, row in enumerate(rows))


def _of_point(side: SideName, point: ReadingPoint) -> SheetRow:
    return SheetRow(side, point.instrument, point.depth, point.turn, point.value, point.struck or "")


def _of_span(side: SideName, span: SpanPoint) -> list[SheetRow]:
    return [
        SheetRow(side, span.instrument, span.depth, end, value, span.struck or "")
        for end, value in zip(ENDS, (span.smallest, span.largest), strict=True)
    ]
