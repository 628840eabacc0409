"""A part in hand as it was measured where it differs from the parts list: length, bearing seat, bearing fitted."""

from collections.abc import Iterator
from dataclasses import replace

from recommender.bench.case import Case
from recommender.bench.parts import Part as PartInHand
from recommender.bench.readings import Path
from recommender.deriving.measured import MeasuredLog
from recommender.deriving.spreads import COVERAGE, scalar_spread
from recommender.rulebook.book import Part, Rulebook
from recommender.rulebook.stock import Band

SIZES = (
    ("length", "length of the part in the bore"),
    ("seat", "bearing seat of the part"),
    ("od_spread", "out-of-round of the part"),
)


def as_measured(part: Part, given: PartInHand, case: Case, book: Rulebook) -> Part:
    """Return a part of the parts list with what was measured on the one in hand in its place."""
    fitted = None if given.bearing is None else book.parts.get(given.bearing.part)
    return replace(
        part,
        length=part.length if given.length is None else float(given.length.value),
        seat=part.seat if given.seat is None else float(given.seat.value),
        bearing=part.bearing if fitted is None or part.kind == "bearing" else fitted.bearing,
        seat_interference=_seat_fit(part, given, case, book),
    )


def measured_beside(path: Path, given: PartInHand, case: Case, book: Rulebook, log: MeasuredLog) -> tuple[str, ...]:
    """Return the names in the log of what was measured on a part beside its outside diameter."""
    return tuple(_noted(path, given, case, book, log))


def _noted(path: Path, given: PartInHand, case: Case, book: Rulebook, log: MeasuredLog) -> Iterator[str]:
    for field, what in SIZES:
        size = getattr(given, field)
        if size is not None:
            yield log.scalar((*path, field), what, size, "mm", scalar_spread(size, "part_od", case, book))
    if given.bearing is not None and given.bearing.part != "unknown":
        yield log.keep((*path, "bearing", "part"), "bearing fitted in the part", given.bearing.part)


def _seat_fit(part: Part, given: PartInHand, case: Case, book: Rulebook) -> Band | None:
    """Return the interference (mm) of bearing and seat: as measured where both ends are known, else the usual one."""
    if given.seat is None or part.kind != "cup":
        return part.seat_interference
    seat, doubt = given.seat.value, scalar_spread(given.seat, "part_od", case, book).u * COVERAGE
    low, high = _bearing_outside(part, given, case, book)
    return low - seat - doubt, high - seat + doubt


def _bearing_outside(part: Part, given: PartInHand, case: Case, book: Rulebook) -> Band:
    """Return the outside diameter (mm) of the bearing that goes in: measured, else the band of its designation."""
    fitted = given.bearing
    if fitted is not None and fitted.od is not None:
        doubt = scalar_spread(fitted.od, "part_od", case, book).u * COVERAGE
        return fitted.od.value - doubt, fitted.od.value + doubt
    named = None if fitted is None else book.parts.get(fitted.part)
    return book.bearings[part.bearing if named is None else named.bearing].od
