"""A made-up bench: readings planned with instruments at hand, with the uncertainties a real sheet would have."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from recommender.bench.case import Case
from recommender.bench.instruments import Instrument
from recommender.bench.sheets import number_text
from recommender.deriving.measured import MeasuredLog
from recommender.deriving.sheet import bore_sheet
from recommender.ground.place import whole_file
from recommender.metrology.sheet import Sheet
from recommender.reading.document import Document, Spot
from recommender.rulebook.book import Rulebook

AT_20 = "20 degC"


class PlannedReading(NamedTuple):
    """One reading to take: instrument id, depth from the face in mm, turn in degrees."""

    instrument: str
    depth: float
    turn: float


class PlannedTurn(NamedTuple):
    """One full turn to take: instrument id, depth from the face in mm; smallest and largest are written down."""

    instrument: str
    depth: float


def planned_case(
    standard: str, material: str, instruments: Sequence[Instrument], seat_depth: float,
    readings: Iterable[PlannedReading], value: float,
) -> Case:
    """Return a case at 20 C in which every planned reading on the drive side shows the same value (mm)."""
    blocks = [
        {"instrument": each.instrument, "unit": "mm", "turns": [each.turn], "at": {number_text(each.depth): [value]}}
        for each in readings
    ]
    side = {"seat_depth": f"{seat_depth} mm", "readings": blocks} if blocks else {"readings": "none", "reason": "plan"}
    return Case.model_validate({
        "case": "plan", "title": "plan", "received": "2000-01-01",
        "frame": {"material": material, "standard": standard, "insert": "none"},
        "bench": {"frame_temperature": AT_20, "instruments": list(instruments)},
        "sides": {"drive": side, "non_drive": {"readings": "none", "reason": "plan"}},
        "damage": {"looked_at": {}, "signs": []},
    })


def planned_sheet(case: Case, book: Rulebook) -> Sheet:
    """Return the drive side's sheet of a made-up case, its errors as those of any case."""
    nowhere = Document("plan", "", {}, {(): Spot(None, whole_file("plan"))})
    return bore_sheet(case, "drive", book, MeasuredLog(nowhere)).sheet
