"""From the rows of a bench sheet to the blocks of readings a case holds, and back from a block's cell to its row."""

import json
from collections.abc import Iterable, Iterator, Mapping
from typing import Any, NamedTuple

from recommender.bench.readings import Path
from recommender.bench.sheets import ENDS, BenchSheet, SheetRow, number_text

UNKNOWN_DEPTH = ""


class Blocks(NamedTuple):
    """Blocks of readings by side, as a case file has them, and the row (counted from 0) behind each path."""

    sides: Mapping[str, list[dict[str, Any]]]
    rows: Mapping[Path, int]


class _Numbered(NamedTuple):
    place: int
    row: SheetRow

    @property
    def depth(self) -> str:
        return UNKNOWN_DEPTH if self.row.depth is None else number_text(self.row.depth)


def blocks_of(sheet: BenchSheet) -> Blocks:
    """Return every reading of a sheet as blocks; nothing is lost: what was struck and noted goes along.

    A sheet that was read is complete in itself: both ends of each span, depth and turn together. Rows without reading
    leave nothing but their note.
    """
    sides: dict[str, list[dict[str, Any]]] = {"drive": [], "non_drive": []}
    found: dict[Path, int] = {}
    for (side, instrument), rows in _gathered(sheet.rows).items():
        for block, cells in _blocks(instrument, rows):
            at: Path = ("sides", side, "readings", len(sides[side]))
            sides[side].append(block)
            found.update({(*at, *path): index for path, index in cells.items()})
    return Blocks(sides, found)


def blocks_text(blocks: Blocks) -> str:
    """Return the blocks as the lines a case file holds under `sides`, one line per block."""
    lines = ["sides:"]
    for side, found in blocks.sides.items():
        lines += [f"  {side}:", "    readings:" if found else "    readings: none"]
        lines += [f"      - {_flow(block)}" for block in found]
    return "\n".join(lines) + "\n"


def _flow(value: Any) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {_flow(each)}" for key, each in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(_flow(each) for each in value) + "]"
    return number_text(value, 0) if isinstance(value, float) else json.dumps(value, ensure_ascii=False)


def _gathered(rows: Iterable[SheetRow]) -> dict[tuple[str, str], list[_Numbered]]:
    found: dict[tuple[str, str], list[_Numbered]] = {}
    for index, row in enumerate(rows):
        found.setdefault((row.side, row.instrument), []).append(_Numbered(index, row))
    return found


def _blocks(instrument: str, rows: list[_Numbered]) -> Iterator[tuple[dict[str, Any], dict[Path, int]]]:
    """Yield the blocks of one instrument in one bore, each with the rows behind its cells."""
    taken = [each for each in rows if each.row.reading is not None]
    head = {"instrument": instrument, "unit": "mm"}
    made = [
        *_grids([each for each in taken if isinstance(each.row.turn, float)]),
        *_spans([each for each in taken if isinstance(each.row.turn, str)]),
        *_loose([each for each in taken if each.row.turn is None]),
    ]
    left = _notes(each for each in rows if each.row.reading is None)
    for place, (block, cells) in enumerate(made):
        notes = _notes(each for each in taken if each.place in set(cells.values())) + ([] if place else left)
        yield {**head, **block, **({"note": "; ".join(notes)} if notes else {})}, cells


def _grids(rows: list[_Numbered]) -> Iterator[tuple[dict[str, Any], dict[Path, int]]]:
    """Yield grids; a place with readings that stand and others struck is spread over several."""
    cells: dict[tuple[str, float], dict[str, list[_Numbered]]] = {}
    for each in rows:
        assert isinstance(each.row.turn, float)
        cells.setdefault((each.depth, each.row.turn), {}).setdefault(each.row.struck, []).append(each)
    for layer in range(max((len(by_reason) for by_reason in cells.values()), default=0)):
        depths: dict[str, dict[float, list[_Numbered]]] = {}
        for (depth, turn), by_reason in cells.items():
            if layer < len(by_reason):
                depths.setdefault(depth, {})[turn] = list(by_reason.values())[layer]
        for turns in dict.fromkeys(tuple(sorted(row)) for row in depths.values()):
            yield _grid(turns, {depth: row for depth, row in depths.items() if tuple(sorted(row)) == turns})


def _grid(
    turns: tuple[float, ...], depths: Mapping[str, Mapping[float, list[_Numbered]]]
) -> tuple[dict[str, Any], dict[Path, int]]:
    at: dict[str, list[Any]] = {}
    struck: dict[str, dict[str, str]] = {}
    cells: dict[Path, int] = {}
    for depth, row in depths.items():
        at[depth] = [_cell([each.row.reading for each in row[turn]]) for turn in turns]
        for column, turn in enumerate(turns):
            where: Path = ("at", depth, column)
            one = len(row[turn]) == 1
            cells.update({where if one else (*where, repeat): each.place for repeat, each in enumerate(row[turn])})
            if row[turn][0].row.struck:
                struck.setdefault(depth, {})[number_text(turn)] = row[turn][0].row.struck
    return {"turns": list(turns), "at": at, **({"struck": struck} if struck else {})}, cells


def _cell(values: list[float | None]) -> Any:
    return values[0] if len(values) == 1 else values


def _spans(rows: list[_Numbered]) -> Iterator[tuple[dict[str, Any], dict[Path, int]]]:
    """Yield one block per span of a depth, further spans of the same depth in further blocks."""
    pairs = span_pairs([each.row for each in rows])
    layers: list[dict[str, tuple[_Numbered, _Numbered]]] = []
    for smallest, largest in pairs:
        pair = (rows[smallest], rows[largest])
        free = next((layer for layer in layers if pair[0].depth not in layer and _mixes(pair, layer)), None)
        if free is None:
            layers.append({pair[0].depth: pair})
        else:
            free[pair[0].depth] = pair
    yield from (_span_block(layer) for layer in layers)


def span_pairs(rows: list[SheetRow]) -> list[tuple[int, int]]:
    """Return the places of smallest and largest that belong together: first with first at each depth."""
    found: dict[float | None, dict[str, list[int]]] = {}
    for place, row in enumerate(rows):
        found.setdefault(row.depth, {end: [] for end in ENDS})[str(row.turn)].append(place)
    return [pair for ends in found.values() for pair in zip(ends[ENDS[0]], ends[ENDS[1]], strict=False)]


def _mixes(pair: tuple[_Numbered, _Numbered], layer: Mapping[str, object]) -> bool:
    """Return whether a span can share a block; one without depth stands alone."""
    return pair[0].depth != UNKNOWN_DEPTH and UNKNOWN_DEPTH not in layer


def _span_block(layer: Mapping[str, tuple[_Numbered, _Numbered]]) -> tuple[dict[str, Any], dict[Path, int]]:
    values = {depth: [each.row.reading for each in pair] for depth, pair in layer.items()}
    reasons = {depth: _reason(pair) for depth, pair in layer.items() if _reason(pair)}
    if UNKNOWN_DEPTH in layer:
        pair = layer[UNKNOWN_DEPTH]
        strike = {"struck_all": reasons[UNKNOWN_DEPTH]} if reasons else {}
        return {"spans": values[UNKNOWN_DEPTH], **strike}, {("spans", end): pair[end].place for end in range(2)}
    cells: dict[Path, int] = {
        ("spans", depth, end): pair[end].place for depth, pair in layer.items() for end in range(2)
    }
    return {"spans": values, **({"struck": reasons} if reasons else {})}, cells


def _reason(pair: Iterable[_Numbered]) -> str:
    return "; ".join(dict.fromkeys(each.row.struck for each in pair if each.row.struck))


def _loose(rows: list[_Numbered]) -> Iterator[tuple[dict[str, Any], dict[Path, int]]]:
    for reason in dict.fromkeys(each.row.struck for each in rows):
        alike = [each for each in rows if each.row.struck == reason]
        block = {"loose": [each.row.reading for each in alike], **({"struck_all": reason} if reason else {})}
        yield block, {("loose", place): each.place for place, each in enumerate(alike)}


def _notes(rows: Iterable[_Numbered]) -> list[str]:
    return [f"{_where(each.row)}{each.row.note}" for each in rows if each.row.note]


def _where(row: SheetRow) -> str:
    turn = row.turn if isinstance(row.turn, str) else None if row.turn is None else f"{number_text(row.turn)} deg"
    parts = [None if row.depth is None else f"{number_text(row.depth)} mm", turn]
    parts.append("not read" if row.reading is None else None)
    known = " ".join(part for part in parts if part)
    return f"{known}: " if known else ""
