"""The case as it would be with another bore, another part, or one thing more known."""

from collections.abc import Callable, Mapping
from itertools import chain
from typing import Any, NamedTuple

from recommender.bench.case import Case
from recommender.bench.load import LoadedCase
from recommender.bench.parts import Part
from recommender.bench.readings import Readings
from recommender.bench.sides import Side
from recommender.deriving.derived import SideName

MM = 1000.0
DIGITS = 6


class Point(NamedTuple):
    """One reading: its value, its depth where known, and the middle of its row, all mm."""

    value: float
    depth: float | None
    middle: float


Moved = Callable[[Point], float]


def bore_moved(loaded: LoadedCase, side: SideName, um: float) -> LoadedCase:
    """Return the case with one bore larger by `um`, its readings and the plugs tried in it alike."""
    given = getattr(loaded.case.sides, side)
    gauges = tuple(_larger(gauge, um / MM) for gauge in given.gauges)
    return _read(loaded, side, lambda at: at.value + um / MM, gauges)


def bore_rounder(loaded: LoadedCase, side: SideName, share: float) -> LoadedCase:
    """Return the case with the deviations of every row of readings from its middle smaller by a share, 0 to 1."""
    return _read(loaded, side, lambda at: at.middle + (at.value - at.middle) * (1 - share))


def bore_tapered(loaded: LoadedCase, side: SideName, um: float) -> LoadedCase:
    """Return the case with one bore wider by `um` at the inner end of its seat than at the face, the middle as read."""
    given = getattr(loaded.case.sides, side)
    seat = float(given.seat_depth.value) if given.seat_depth else _deepest(given)

    def moved(at: Point) -> float:
        return at.value if at.depth is None or not seat else at.value + um / MM * (at.depth / seat - 0.5)

    return _read(loaded, side, moved)


def part_of(loaded: LoadedCase, index: int, od: float) -> LoadedCase:
    """Return the case with another outside diameter (mm) of the part in hand at this place of the list."""
    parts = list(loaded.case.parts)
    known = parts[index].od
    assert known is not None, "only a measured part gets another size"
    parts[index] = parts[index].model_copy(update={"od": known.model_copy(update={"value": round(od, DIGITS)})})
    return _with(loaded, {"parts": tuple(parts)})


def part_in_hand(loaded: LoadedCase, side: SideName, part: str, od: float) -> LoadedCase:
    """Return the case with one more measured part in hand, its bearing fitted; diameter in mm."""
    made = Part.model_validate(
        {"part": part, "side": side, "od": f"{round(od, DIGITS)} mm", "bearing_fitted": "fitted"})
    return _with(loaded, {"parts": (*loaded.case.parts, made)})


def answered(loaded: LoadedCase, updates: Mapping[str, Any]) -> LoadedCase:
    """Return the case with models replaced at top level, such as `damage` or `alignment`."""
    return _with(loaded, dict(updates))


def on_side(loaded: LoadedCase, side: SideName, updates: Mapping[str, Any]) -> LoadedCase:
    """Return the case with fields of one side replaced."""
    changed = getattr(loaded.case.sides, side).model_copy(update=dict(updates))
    return _with(loaded, {"sides": loaded.case.sides.model_copy(update={side: changed})})


def _with(loaded: LoadedCase, updates: dict[str, Any]) -> LoadedCase:
    case: Case = loaded.case.model_copy(update=updates)
    return loaded._replace(case=case)


def _larger(gauge: Any, mm: float) -> Any:
    sizes = {"size": gauge.size, "measured": gauge.measured}
    return gauge.model_copy(update={
        name: known.model_copy(update={"value": round(known.value + mm, DIGITS)})
        for name, known in sizes.items() if known is not None
    })  # fmt: skip


def _read(loaded: LoadedCase, side: SideName, moved: Moved, gauges: tuple[Any, ...] | None = None) -> LoadedCase:
    given: Side = getattr(loaded.case.sides, side)
    update: dict[str, Any] = {"readings": tuple(_block(block, moved) for block in given.readings)}
    if gauges is not None:
        update["gauges"] = gauges
    return on_side(loaded, side, update)


def _block(block: Readings, moved: Moved) -> Readings:
    update = {
        "at": None if block.at is None else {depth: _row(row, float(depth), moved) for depth, row in block.at.items()},
        "spans": None if block.spans is None else {key: _span(span, key, moved) for key, span in block.spans.items()},
        "loose": None if block.loose is None else _row(block.loose, None, moved),
    }
    return block.model_copy(update=update)


def _row(row: tuple[tuple[float, ...], ...], depth: float | None, moved: Moved) -> tuple[tuple[float, ...], ...]:
    values = list(chain.from_iterable(row))
    middle = sum(values) / len(values)
    return tuple(tuple(round(moved(Point(value, depth, middle)), DIGITS) for value in cell) for cell in row)


def _span(span: tuple[float, ...], key: str, moved: Moved) -> tuple[float, ...]:
    middle = sum(span) / len(span)
    depth = None if not key.replace(".", "").isdigit() else float(key)
    return tuple(round(moved(Point(value, depth, middle)), DIGITS) for value in span)


def _deepest(side: Side) -> float:
    return max((float(depth) for block in side.readings for depth in block.at or {}), default=0.0)
