"""Standard uncertainties of what was measured: from the case where it states them, else the book's defaults."""

from math import sqrt
from typing import NamedTuple

from recommender.bench.case import Case
from recommender.bench.instruments import Instrument
from recommender.bench.quantities import MeasuredAngle, MeasuredLength, MeasuredTemperature
from recommender.rulebook.book import Rulebook

Scalar = MeasuredLength | MeasuredAngle | MeasuredTemperature
RECTANGLE = sqrt(3.0)
STEP = sqrt(12.0)
COVERAGE = 1.96


class InstrumentSpread(NamedTuple):
    """Standard uncertainties of an instrument in mm: of one reading, and what all its readings share."""

    own: float
    shared: float
    assumed: bool


def instrument_spread(instrument: Instrument, book: Rulebook) -> InstrumentSpread:
    """Return the uncertainties of an instrument; what its record leaves out comes from the kind's defaults.

    The error limit counts as a rectangular distribution shared by all readings, the resolution as one of its own
    (GUM, type B evaluation); the drift on the setting ring is shared.
    """
    kind = book.instruments[instrument.kind]
    limit = believed_limit(instrument, book)
    step = kind.resolution if instrument.resolution is None else instrument.resolution
    drift = ring_drift(instrument) or 0.0
    own = sqrt(kind.repeatability**2 + (step / STEP) ** 2)
    shared = sqrt((limit / RECTANGLE) ** 2 + (drift / 2 / RECTANGLE) ** 2)
    return InstrumentSpread(own, shared, instrument.error_limit is None)


def believed_limit(instrument: Instrument, book: Rulebook) -> float:
    """Return the error limit of an instrument in mm: its own, but none finer than its kind can be; else the kind's."""
    kind = book.instruments[instrument.kind]
    return kind.error_limit if instrument.error_limit is None else max(instrument.error_limit, kind.finest)


def ring_drift(instrument: Instrument) -> float | None:
    """Return the change on the setting ring between before and after in mm, None when not recorded."""
    ring = instrument.ring
    if ring is None or ring.before is None or ring.after is None:
        return None
    return abs(ring.after - ring.before)


def ring_read(instrument: Instrument) -> float | None:
    """Return what the instrument read on its setting ring in mm, before and after on average; None without a record."""
    ring = instrument.ring
    read = [] if ring is None else [each for each in (ring.before, ring.after) if each is not None]
    return sum(read) / len(read) if read else None


class Spread(NamedTuple):
    """Standard uncertainty of a measured scalar in its own unit, and whether it was assumed."""

    u: float
    assumed: bool

    def words(self, unit: str) -> str:
        """Return the 95 % half-spread in words for the trace."""
        half = self.u * COVERAGE
        shown = f"{half * 1000:.0f} um" if unit == "mm" and half < 0.1 else f"{half:.2g} {unit}"
        return f"within {shown}" + (", assumed" if self.assumed else "")


def scalar_spread(measured: Scalar, kind: str, case: Case, book: Rulebook) -> Spread:
    """Return the uncertainty of a measured scalar: stated, from its instrument, else the default of its kind.

    A stated spread finer than anybody could measure that kind of thing counts as the finest that is believed.
    """
    if measured.within is not None:
        return Spread(max(measured.within, book.spreads[kind].finest) / COVERAGE, assumed=False)
    instrument = case.bench.instrument(measured.by) if measured.by else None
    if instrument is None:
        return Spread(book.spreads[kind].value / COVERAGE, assumed=True)
    found = instrument_spread(instrument, book)
    return Spread(sqrt(found.own**2 / (measured.repeats or 1) + found.shared**2), assumed=False)
