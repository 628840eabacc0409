"""The parts of a case file that can be used, even while others cannot."""

from collections.abc import Iterator
from datetime import date
from typing import Any, NamedTuple

from pydantic import TypeAdapter, ValidationError

from recommender.bench.gauges import Gauge
from recommender.bench.instruments import Instrument
from recommender.bench.quantities import MeasuredLength
from recommender.bench.readings import Path, ReadingPoint, Readings, SpanPoint, points, spans
from recommender.reading.types import IsoDate


class Block(NamedTuple):
    """One block of readings with its path and side."""

    path: Path
    side: str
    readings: Readings

    def points(self) -> Iterator[ReadingPoint]:
        """Yield every reading of the block."""
        return points(self.readings, self.path)

    def spans(self) -> Iterator[SpanPoint]:
        """Yield every span of the block."""
        return spans(self.readings, self.path)


def matches(data: Any, pattern: tuple[str, ...], path: Path = ()) -> Iterator[tuple[Path, Any]]:
    """Yield every (path, node) of the raw data whose path fits the pattern; `*` fits any key or index."""
    if not pattern:
        yield path, data
        return
    for key, node in _children(data):
        if pattern[0] in ("*", key):
            yield from matches(node, pattern[1:], (*path, key))


def everywhere(data: Any, path: Path = ()) -> Iterator[tuple[Path, Any]]:
    """Yield every node of the raw data with its path."""
    yield path, data
    for key, node in _children(data):
        yield from everywhere(node, (*path, key))


def usable(data: Any, pattern: tuple[str, ...], kind: Any) -> Iterator[tuple[Path, Any]]:
    """Yield every node at the pattern that is valid in itself, as its model or type."""
    adapter: TypeAdapter[Any] = TypeAdapter(kind)
    for path, node in matches(data, pattern):
        try:
            yield path, adapter.validate_python(node)
        except ValidationError:
            continue


def instruments(data: Any) -> dict[str, Instrument]:
    """Return the usable instruments by id, the first of each id."""
    found: dict[str, Instrument] = {}
    for _, each in usable(data, ("bench", "instruments", "*"), Instrument):
        found.setdefault(each.id, each)
    return found


def instrument_ids(data: Any) -> list[tuple[Path, str]]:
    """Return every instrument id written down, also of instruments that cannot be used otherwise."""
    named = matches(data, ("bench", "instruments", "*", "id"))
    return [(path, each) for path, each in named if isinstance(each, str)]


def blocks(data: Any) -> list[Block]:
    """Return the usable blocks of readings of both sides."""
    found = usable(data, ("sides", "*", "readings", "*"), Readings)
    return [Block(path, str(path[1]), each) for path, each in found]


def gauges(data: Any) -> list[tuple[Path, str, Gauge]]:
    """Return the usable gauges with path and side."""
    return [(path, str(path[1]), each) for path, each in usable(data, ("sides", "*", "gauges", "*"), Gauge)]


def seat_depths(data: Any) -> dict[str, float]:
    """Return the seat depth in mm of each side that states one."""
    found = usable(data, ("sides", "*", "seat_depth"), MeasuredLength)
    return {str(path[1]): each.value for path, each in found}


def received(data: Any) -> date | None:
    """Return the date the frame was received, None when it cannot be used."""
    return next((each for _, each in usable(data, ("received",), IsoDate)), None)


def _children(data: Any) -> Iterator[tuple[str | int, Any]]:
    if isinstance(data, dict):
        yield from data.items()
    if isinstance(data, list | tuple):
        yield from enumerate(data)
