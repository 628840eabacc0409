"""A scan as a CSV file of points: every bad cell by line and column, nothing lost."""

from collections.abc import Iterator
from itertools import islice
from typing import Any

from recommender.bench.checks_of_scans import sections
from recommender.bench.load import LoadedCase
from recommender.bench.sheet_blocks import Blocks
from recommender.bench.sheet_cells import Cell, records, separator_of
from recommender.bench.sheet_import import SIDES, ImportedSheet
from recommender.bench.sheets import BenchSheet, number_text
from recommender.ground.flaw import MOST_FLAWS, Flaw, Flawed, flaw, too_many
from recommender.ground.quantity import DECIMAL_COMMA
from recommender.ground.suggest import did_you_mean
from recommender.reading.scalars import NUMBER

FORMS = {
    ("side", "instrument", "depth_mm", "turn_deg", "radius_mm"): "scan",
    ("side", "instrument", "depth_mm", "x_mm", "y_mm"): "points",
}
FARTHEST = 1e6


def is_scan(text: str) -> bool:
    """Return whether a CSV text holds points of a scan, by the names of its columns."""
    return any(_names(_first(text), form) == form for form in FORMS)


def scan_in(text: str, file: str, loaded: LoadedCase | None = None) -> ImportedSheet:
    """Return the points in a CSV text as blocks of a case; raises Flawed with every flaw, at its line and column.

    With a case the instruments have to be those of the case.
    """
    columns = next(form for form in FORMS if _names(_first(text), form) == form)
    lines = records(text, file, separator_of(text, columns))
    next(lines)
    flaws: list[Flaw] = []
    known = None if loaded is None else [each.id for each in loaded.case.bench.instruments]
    blocks: dict[tuple[str, str], dict[str, list[list[float]]]] = {}
    starts: dict[tuple[str, str, str], Cell] = {}
    for cells in lines:
        if len(flaws) >= MOST_FLAWS:
            raise Flawed([*flaws[:MOST_FLAWS], too_many(file)])
        found = list(_flaws(cells, columns, known, text))
        flaws += found
        if not found:
            side, tool, depth, *pair = (cell.text for cell in cells)
            at = number_text(_number(depth))
            blocks.setdefault((side, tool), {}).setdefault(at, []).append([_number(each) for each in pair])
            starts.setdefault((side, tool, at), cells[2])
    made = _blocks(blocks, FORMS[columns])
    if not flaws:
        flaws = list(islice(_of_sections(made, starts, text), MOST_FLAWS))
    if flaws:
        raise Flawed(flaws)
    return ImportedSheet(BenchSheet("", ()), Blocks(made, {}), ())


def _first(text: str) -> str:
    return next((line for line in text.splitlines() if line.strip()), "")


def _names(line: str, form: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(each.strip().strip('"').casefold() for each in line.split(separator_of(line, form)))


def _number(text: str) -> float:
    plain = text.replace(",", ".") if DECIMAL_COMMA.fullmatch(text) else text
    if not NUMBER.fullmatch(plain):
        raise ValueError(f"`{text}` is no number")
    return float(plain)


def _flaws(cells: tuple[Cell, ...], columns: tuple[str, ...], known: list[str] | None, text: str) -> Iterator[Flaw]:
    if len(cells) != len(columns):
        advice = f"Fill in {', '.join(columns)}."
        yield flaw("scan.cells", cells[0].place, text, f"{len(cells)} cells, not {len(columns)}", advice)
        return
    side, tool = cells[:2]
    if side.text not in SIDES:
        yield flaw("scan.side", side.place, text, f"`{side.text}` is no side", did_you_mean(side.text, SIDES))
    if known is not None and tool.text not in known:
        advice = did_you_mean(tool.text, known)
        yield flaw("scan.instrument", tool.place, text, f"the case has no instrument `{tool.text}`", advice)
    for name, cell in zip(columns[2:], cells[2:], strict=True):
        try:
            good = abs(_number(cell.text)) < FARTHEST and (name != "depth_mm" or _number(cell.text) >= 0)
        except ValueError:
            good = False
        if not good:
            advice = f"Write {name} as a plain number."
            yield flaw("scan.number", cell.place, text, f"`{cell.text}` is no number", advice)


def _blocks(found: dict[tuple[str, str], dict[str, list[list[float]]]], form: str) -> dict[str, list[dict[str, Any]]]:
    sides: dict[str, list[dict[str, Any]]] = {side: [] for side in SIDES}
    for (side, tool), rows in found.items():
        sides[side].append({"instrument": tool, "unit": "mm", form: rows})
    return sides


def _of_sections(
    sides: dict[str, list[dict[str, Any]]], starts: dict[tuple[str, str, str], Cell], text: str
) -> Iterator[Flaw]:
    """Yield what the check of a case finds in the points, at the first line of their depth."""
    for each in sections({"sides": {side: {"readings": blocks} for side, blocks in sides.items()}}):
        _, side, _, index, _, depth = each.path
        cell = starts[str(side), sides[str(side)][int(index)]["instrument"], str(depth)]
        yield flaw(each.check, cell.place, text, each.message, each.advice)
