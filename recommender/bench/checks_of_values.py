"""Checks of single values: units, windows, temperatures, dates, names that must exist."""

from collections.abc import Iterable, Iterator
from typing import Any

from recommender.bench import pieces
from recommender.bench.instruments import Instrument
from recommender.bench.quantities import MeasuredLength, MeasuredTemperature
from recommender.bench.readings import Path
from recommender.bench.traps import BORE, FARTHEST_ON_RING, WINDOWS, length_trap, temperature_trap
from recommender.bench.trouble import Trouble
from recommender.ground.suggest import did_you_mean

TEMPERATURES = (("temperature",), ("frame_temperature",))


def units(data: Any) -> Iterator[Trouble]:
    """Yield every length outside what it can be: inches, micrometres, lost digits."""
    for pattern, window in WINDOWS:
        for path, measured in pieces.usable(data, pattern, MeasuredLength):
            trap = length_trap(measured.value, window)
            if trap is not None:
                yield Trouble("case.unit", path, *trap)


def temperatures(data: Any) -> Iterator[Trouble]:
    """Yield every temperature no bench has."""
    named = ((path, node) for path, node in pieces.everywhere(data) if path[-1:] in TEMPERATURES)
    for path, node in named:
        for _, measured in pieces.usable(node, (), MeasuredTemperature):
            trap = temperature_trap(measured.value)
            if trap is not None:
                yield Trouble("case.unit", path, *trap)


def instrument_records(data: Any) -> Iterator[Trouble]:
    """Yield instruments defined twice, ranges the wrong way round, late calibrations, rings far off."""
    seen: set[str] = set()
    for path, name in pieces.instrument_ids(data):
        if name in seen:
            yield Trouble(
                "case.instrument", path, f"instrument `{name}` is defined twice", "Give each its own id."
            )
        seen.add(name)
    came = pieces.received(data)
    for path, each in pieces.usable(data, ("bench", "instruments", "*"), Instrument):
        if each.range is not None and each.range[0] >= each.range[1]:
            yield Trouble(
                "case.instrument",
                (*path, "range"),
                "the range is the wrong way round",
                "Write the smallest size first, then the largest.",
            )
        if came is not None and each.calibrated is not None and each.calibrated > came:
            yield Trouble(
                "case.instrument",
                (*path, "calibrated"),
                f"calibrated on {each.calibrated}, after the frame was received on {came}",
                "Look at the certificate and at the date received; one of the two is wrong.",
            )
        yield from _ring(each, path)


def names(data: Any) -> Iterator[Trouble]:
    """Yield instruments and photographs that are referred to and not defined."""
    ids = [name for _, name in pieces.instrument_ids(data)]
    defined = set(ids)
    used = [*pieces.matches(data, ("sides", "*", "readings", "*", "instrument")), *_measured_by(data)]
    for path, name in used:
        if isinstance(name, str) and name not in defined:
            yield Trouble(
                "case.instrument",
                path,
                f"instrument `{name}` is not defined under bench.instruments",
                _known(name, ids, "Define it under bench.instruments."),
            )
    photos = {str(path[-1]) for path, _ in pieces.matches(data, ("identity", "photos", "*"))}
    for path, name in pieces.matches(data, ("damage", "signs", "*", "photo")):
        if isinstance(name, str) and name not in photos:
            yield Trouble(
                "case.photo",
                path,
                f"photograph `{name}` is not listed under identity.photos",
                _known(name, photos, "List it under identity.photos."),
            )


def _measured_by(data: Any) -> Iterator[tuple[Path, Any]]:
    for path, node in pieces.everywhere(data):
        if isinstance(node, dict) and "value" in node and "by" in node:
            yield (*path, "by"), node["by"]


def _known(name: str, known: Iterable[str], otherwise: str) -> str:
    listed = set(known)
    return did_you_mean(name, listed) if listed else otherwise


def _ring(each: Instrument, path: Path) -> Iterator[Trouble]:
    if each.ring is None:
        return
    size = each.ring.size.value
    for when, read in (("before", each.ring.before), ("after", each.ring.after)):
        if read is None or length_trap(read, BORE) or length_trap(size, BORE):
            continue
        if abs(read - size) > FARTHEST_ON_RING:
            yield Trouble(
                "case.ring",
                (*path, "ring", when),
                f"{read:.3f} mm on a ring of {size:.3f} mm",
                "Check ring size and reading: an instrument that far off cannot be used, a slip of the "
                "pen can be put right.",
            )
