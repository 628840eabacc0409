"""Readings the bench could take next, with the instruments of the case and the uncertainties they have."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from recommender.asking.rerun import with_readings
from recommender.bench.case import Case
from recommender.bench.instruments import Instrument
from recommender.bench.load import LoadedCase
from recommender.deriving.correction import sees_of
from recommender.deriving.derived import SideName
from recommender.deriving.measured import MeasuredLog
from recommender.deriving.sheet import bore_sheet
from recommender.metrology.sheet import Reading, Sees, Sheet, turned
from recommender.rulebook.book import Rulebook

FROM_ENDS = 2.0
TURNS: dict[Sees, tuple[float, ...]] = {
    "two_point": tuple(15.0 * step for step in range(12)), "three_point": tuple(10.0 * step for step in range(12)),
}
NEAR = 0.5


class Candidate(NamedTuple):
    """A reading that could be taken: as the metrology sees it (its value is only a stand-in), and how to show it.

    `offset` is what to add to a corrected value to get what the instrument shows; `step` its resolution, both mm.
    """

    reading: Reading
    depth: float
    turn: float
    offset: float
    step: float

    def shown(self, value: float) -> float:
        """Return what the instrument would show for a corrected value at 20 C (mm)."""
        return round((value + self.offset) / self.step) * self.step if self.step else value + self.offset


def sheet_of_side(loaded: LoadedCase, side: SideName, book: Rulebook) -> Sheet:
    """Return the sheet of one side as it stands."""
    return bore_sheet(loaded.case, side, book, MeasuredLog(loaded.document)).sheet


def candidates(loaded: LoadedCase, side: SideName, sheet: Sheet, near: float, book: Rulebook) -> tuple[Candidate, ...]:
    """Return every reading the instruments of the case could take in a bore near a size (mm).

    Two-point at every 15 and three-point at every 10 degrees of their period, at the depths of the sheet and of the
    seat: near the face, in the middle, near the inner end.
    """
    places = list(_places(loaded, sheet, near, book))
    if not places:
        return ()
    value = round(near, 3)
    rows = [(instrument.id, depth, turn, value) for instrument, depth, turn in places]
    empty = loaded._replace(case=_without_readings(loaded.case, side))
    made = sheet_of_side(with_readings(empty, side, rows), side, book).readings
    return tuple(
        Candidate(reading, depth, turn, value - reading.value, _step(instrument, book))
        for reading, (instrument, depth, turn) in zip(made, places, strict=True)
    )


def depths_of(sheet: Sheet) -> tuple[float, ...]:
    """Return the depths worth reading at: those read already, else near them the face, the middle and the inner end."""
    read = {each.depth for each in turned(sheet) if each.depth is not None}
    inset = min(FROM_ENDS, sheet.seat_depth / 4)
    seat = (inset, sheet.seat_depth / 2, sheet.seat_depth - inset)
    new = {round(each, 1) for each in seat if all(abs(each - other) > NEAR for other in read)}
    return tuple(sorted(read | new))


def _places(
    loaded: LoadedCase, sheet: Sheet, near: float, book: Rulebook
) -> Iterator[tuple[Instrument, float, float]]:
    for instrument in loaded.case.bench.instruments:
        kind = book.instruments[instrument.kind]
        if kind.decides_fit and kind.sees != "points" and _reaches(instrument.range, near):
            for depth in depths_of(sheet):
                for turn in TURNS[sees_of(instrument, book)]:
                    yield instrument, depth, turn


def _reaches(reach: Sequence[float] | None, size: float) -> bool:
    return reach is None or reach[0] <= size <= reach[1]


def _step(instrument: Instrument, book: Rulebook) -> float:
    return book.instruments[instrument.kind].resolution if instrument.resolution is None else instrument.resolution


def _without_readings(case: Case, side: SideName) -> Case:
    empty = getattr(case.sides, side).model_copy(update={"readings": (), "gauges": ()})
    return case.model_copy(update={"sides": case.sides.model_copy(update={side: empty})})
