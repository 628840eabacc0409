"""Checks of readings and gauges: grids that do not fit, impossible depths, impossible values."""

from collections.abc import Iterator
from statistics import median, median_low
from typing import Any

from recommender.bench import pieces
from recommender.bench.pieces import Block
from recommender.bench.readings import WHOLE_ROW, Path
from recommender.bench.traps import (
    BORE,
    FAR_OFF,
    FARTHEST_IN_ONE_BORE,
    THIMBLE_DOUBT,
    THIMBLE_TURN,
    length_trap,
)
from recommender.bench.trouble import Trouble
from recommender.bench.words import KEY

MOST_READINGS = 1_000
STRIKE = "Look at the sheet; if the reading slipped, keep it and strike it with a reason under `struck`."
THIMBLE_ADVICE = "That is one turn of a thimble."
DIGIT_ADVICE = "A digit may be lost, or the bore is badly worn."


def how_many(data: Any) -> Iterator[Trouble]:
    """Yield sides with more single readings than can be weighed against each other."""
    count: dict[str, int] = {}
    for block in pieces.blocks(data):
        count[block.side] = count.get(block.side, 0) + sum(1 for _ in _standing(block))
    for side, found in count.items():
        if found > MOST_READINGS:
            yield Trouble(
                "case.many",
                ("sides", side, "readings"),
                f"{found} readings on one side; at most {MOST_READINGS} are weighed together",
                "Keep those of the plan; many points of one round belong under `scan` or `points`.",
            )


def grids(data: Any) -> Iterator[Trouble]:
    """Yield rows that do not match the turns, depths and turns written twice, strikes that hit nothing."""
    for block in pieces.blocks(data):
        sheet, turns = block.readings, block.readings.turns or ()
        seen: set[float] = set()
        for depth, row in (sheet.at or {}).items():
            if len(row) != len(turns):
                yield Trouble(
                    "case.grid",
                    (*block.path, "at", depth),
                    f"{len(row)} readings at depth {depth}, but {len(turns)} turns",
                    "Write one reading per turn; repeats of one turn go into a list of their own.",
                )
        for index, turn in enumerate(turns):
            if turn in seen:
                yield Trouble(
                    "case.grid",
                    (*block.path, "turns", index),
                    f"turn {turn:g} stands here twice",
                    "Write repeats as a list in one cell.",
                )
            seen.add(turn)
        yield from _depths_twice(block)
        yield from _strikes(block)


def depths(data: Any) -> Iterator[Trouble]:
    """Yield depths beyond the seat."""
    seats = pieces.seat_depths(data)
    for block in pieces.blocks(data):
        seat = seats.get(block.side)
        for path, depth in _depth_keys(block):
            if seat is not None and float(depth) > seat:
                yield Trouble(
                    "case.depth",
                    (*path, KEY),
                    f"depth {depth} mm lies beyond the seat, {seat:g} mm deep",
                    "Depths count from this side's face; check depth and seat_depth.",
                )


def values(data: Any) -> Iterator[Trouble]:
    """Yield readings that no bore can have, outside their instrument's range, or far off their neighbours."""
    ranges = {name: each.range for name, each in pieces.instruments(data).items()}
    good: dict[tuple[str, str], list[tuple[Path, float]]] = {}
    for block in pieces.blocks(data):
        for path, value in _standing(block):
            found = _one_value(path, value, block.readings.instrument, ranges.get(block.readings.instrument))
            if found is not None:
                yield found
            else:
                good.setdefault((block.side, block.readings.instrument), []).append((path, value))
    for (side, instrument), read in good.items():
        yield from _outliers(side, instrument, read)


def spans(data: Any) -> Iterator[Trouble]:
    """Yield spans whose smallest reading is larger than their largest."""
    for block in pieces.blocks(data):
        for span in block.spans():
            if span.smallest > span.largest:
                yield Trouble(
                    "case.span",
                    span.path,
                    f"{span.smallest:.3f} is larger than {span.largest:.3f}",
                    "Write the smallest reading first, then the largest.",
                )


def gauges(data: Any) -> Iterator[Trouble]:
    """Yield gauges far off every reading of their side, and go gauges larger than the no-go."""
    read: dict[str, list[float]] = {}
    for block in pieces.blocks(data):
        plausible = (value for _, value in _standing(block) if length_trap(value, BORE) is None)
        read.setdefault(block.side, []).extend(plausible)
    middle = {side: median(values) for side, values in read.items() if values}
    tried = pieces.gauges(data)
    smallest: dict[str, float] = {}
    for _, side, each in tried:
        if each.kind == "go":
            smallest[side] = min(each.size.value, smallest.get(side, each.size.value))
    for path, side, each in tried:
        size = each.size.value
        near = middle.get(side, size)
        if length_trap(size, BORE) is None and abs(size - near) > FARTHEST_IN_ONE_BORE:
            yield Trouble(
                "case.gauge",
                (*path, "size"),
                f"a gauge of {size:.3f} mm in a bore read as {near:.3f} mm",
                "Check the gauge's size and the readings; one of the two belongs to another frame.",
            )
        if each.kind == "no_go" and size < smallest.get(side, size):
            yield Trouble(
                "case.gauge",
                (*path, "size"),
                f"the no-go gauge, {size:.3f} mm, is smaller than the go gauge",
                "Check which gauge is which: the go gauge carries the lower limit.",
            )


def _depth_keys(block: Block) -> Iterator[tuple[Path, str]]:
    sheet = block.readings
    for form, rows in (("at", sheet.at), ("spans", sheet.spans), ("scan", sheet.scan), ("points", sheet.points)):
        yield from (((*block.path, form, depth), depth) for depth in rows or {} if depth != WHOLE_ROW)


def _depths_twice(block: Block) -> Iterator[Trouble]:
    seen: set[float] = set()
    for path, depth in _depth_keys(block):
        if float(depth) in seen:
            yield Trouble(
                "case.grid",
                (*path, KEY),
                f"depth {depth} stands here twice",
                "Write repeats as a list in one cell.",
            )
        seen.add(float(depth))


def _strikes(block: Block) -> Iterator[Trouble]:
    read, turns = {float(depth) for _, depth in _depth_keys(block)}, set(block.readings.turns or ())
    for depth, row in block.readings.struck.items():
        if float(depth) not in read:
            yield Trouble(
                "case.strike",
                (*block.path, "struck", depth, KEY),
                f"nothing was read at depth {depth}",
                "Strike a depth of this block, or the whole block with `struck_all`.",
            )
            continue
        for turn in row:
            if turn != WHOLE_ROW and float(turn) not in turns:
                yield Trouble(
                    "case.strike",
                    (*block.path, "struck", depth, turn, KEY),
                    f"nothing was read at turn {turn}",
                    "Strike a turn of this block.",
                )


def _standing(block: Block) -> Iterator[tuple[Path, float]]:
    yield from ((point.path, point.value) for point in block.points() if point.struck is None)
    for span in block.spans():
        if span.struck is None:
            yield from (((*span.path, end), value) for end, value in enumerate((span.smallest, span.largest)))


def _one_value(path: Path, value: float, instrument: str, reach: tuple[float, ...] | None) -> Trouble | None:
    trap = length_trap(value, BORE)
    if trap is not None:
        return Trouble("case.unit", path, *trap)
    if reach is not None and reach[0] < reach[1] and not reach[0] <= value <= reach[1]:
        return Trouble(
            "case.range",
            path,
            f"{value:.7g} mm is outside the range of `{instrument}`, {reach[0]:g} to {reach[1]:g} mm",
            f"Check the reading and the instrument's range. {STRIKE}",
        )
    return None


def _outliers(side: str, instrument: str, read: list[tuple[Path, float]]) -> Iterator[Trouble]:
    middle = median_low([value for _, value in read])
    for path, value in read:
        off = abs(value - middle)
        if off > FARTHEST_IN_ONE_BORE:
            yield Trouble(
                "case.outlier",
                path,
                f"{value:.7g} mm is {off:.3f} mm off the middle of what `{instrument}` read "
                f"on the {side} side, {middle:.7g} mm",
                f"No bore differs that much within itself. {STRIKE}",
            )
        elif off > FAR_OFF and len(read) > 2:
            turned = abs(off - THIMBLE_TURN) <= THIMBLE_DOUBT
            yield Trouble(
                "case.outlier",
                path,
                f"{value:.7g} mm is {off:.3f} mm off the middle of what `{instrument}` read, {middle:.7g} mm",
                f"{THIMBLE_ADVICE if turned else DIGIT_ADVICE} {STRIKE}",
                "warning",
            )
