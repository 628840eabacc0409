"""From the readings of a side to the sheet the metrology works on: corrected, at 20 C, with its uncertainties."""

from math import sqrt
from typing import NamedTuple

from recommender.bench.case import Case
from recommender.bench.gauges import Gauge
from recommender.bench.instruments import Instrument
from recommender.bench.readings import Path, ReadingPoint, SpanPoint
from recommender.bench.scans import ScanPoints
from recommender.bench.sides import Side, readings_of, scans_of, spans_of
from recommender.deriving.correction import Corrected, correct, sees_of, to_reference
from recommender.deriving.derived import SideName
from recommender.deriving.measured import MeasuredLog
from recommender.deriving.spreads import (
    COVERAGE,
    InstrumentSpread,
    instrument_spread,
    ring_drift,
    scalar_spread,
)
from recommender.metrology import sheet as metrology
from recommender.metrology.handling import off_narrow_ends
from recommender.metrology.scan import Section, section_of
from recommender.rulebook.book import Rulebook

UM = 1e-3


class BoreSheet(NamedTuple):
    """What the bench read of one bore, ready for the metrology, and the names of the things it was made from."""

    sheet: metrology.Sheet
    inputs: tuple[str, ...]
    instruments: tuple[Instrument, ...]
    instrument_inputs: tuple[str, ...]
    assumed: bool


def assumptions(book: Rulebook) -> metrology.Assumptions:
    """Return the priors for what no reading saw, in mm, from the assumption limits of the book."""
    return metrology.Assumptions(
        ovality_sd=book.limits["assumption.ovality"].value * UM,
        lobing_sd=book.limits["assumption.lobing"].value * UM,
        five_lobe_sd=book.limits["assumption.five_lobes"].value * UM,
        curvature_sd=book.limits["assumption.curvature"].value * UM,
        taper_sd=book.limits["assumption.taper"].value * UM,
        section_sd=book.limits["assumption.section"].value * UM,
        local_share=book.limits["assumption.local_share"].value,
        local_most=book.limits["assumption.local_form"].value * UM,
    )


def bore_sheet(case: Case, name: SideName, book: Rulebook, log: MeasuredLog) -> BoreSheet:
    """Return the sheet of a side; struck readings are left out but stay in the log."""
    writer = _Writer(case, name, book, log)
    side: Side = getattr(case.sides, name)
    for point in readings_of(side, ("sides", name)):
        writer.point(point)
    for span in spans_of(side, ("sides", name)):
        writer.span(span)
    writer.loose_ends()
    for scanned in scans_of(side, ("sides", name)):
        writer.scan(scanned)
    for index, gauge in enumerate(side.gauges):
        writer.gauge(gauge, index)
    return writer.sheet()


class _Writer:
    """Writes the sheet of one side, reading by reading."""

    def __init__(self, case: Case, name: SideName, book: Rulebook, log: MeasuredLog) -> None:
        self._case, self._name, self._book, self._log = case, name, book, log
        self._side: Side = getattr(case.sides, name)
        self._readings: list[metrology.Reading] = []
        self._spans: list[metrology.Span] = []
        self._scans: list[metrology.Scan] = []
        self._gauges: list[metrology.Gauge] = []
        self._loose: dict[str, list[float]] = {}
        self._inputs: list[str] = []

    def point(self, point: ReadingPoint) -> None:
        """Take one reading; without turn or depth it goes with the loose ones."""
        instrument = self._instrument(point.instrument)
        good = self._correct(point.value, instrument)
        shown = f"{point.value:.3f} mm" + (f", struck: {point.struck}" if point.struck else "")
        self._note(point.path, f"reading with {instrument.id}", shown, good.spread)
        if point.struck:
            return
        if point.turn is None or point.depth is None:
            self._loose.setdefault(instrument.id, []).append(good.value)
            return
        sees = sees_of(instrument, self._book)
        self._readings.append(
            metrology.Reading(good.value, instrument.id, sees, point.depth, point.turn, good.spread.own, good.shared)
        )

    def span(self, span: SpanPoint) -> None:
        """Take the smallest and largest reading of a full turn."""
        instrument = self._instrument(span.instrument)
        low, high = (self._correct(each, instrument) for each in (span.smallest, span.largest))
        shown = f"{span.smallest:.3f} to {span.largest:.3f} mm over a turn"
        self._note(span.path, f"span read with {instrument.id}", shown, low.spread)
        if not span.struck:
            self._add_span(low, high, instrument, span.depth, full_turn=True)

    def scan(self, scanned: ScanPoints) -> None:
        """Take the points of a section."""
        instrument = self._instrument(scanned.instrument)
        found = section_of(scanned.points, scanned.depth)
        size = found.least_squares.diameter
        good = self._correct(size, instrument)
        struck = f", struck: {scanned.struck}" if scanned.struck else ""
        self._note(scanned.path, f"scan with {instrument.id}", section_words(found) + struck, good.spread)
        if scanned.struck is None:
            made = (scanned.points, instrument.id, scanned.depth, 2 * good.spread.own, good.shared, good.value / size)
            self._scans.append(metrology.Scan(*made))

    def loose_ends(self) -> None:
        """Turn the readings without turn into one span per instrument."""
        for each, values in sorted(self._loose.items()):
            instrument = self._instrument(each)
            low, high = (self._correct(value, instrument) for value in (min(values), max(values)))
            self._add_span(
                low._replace(value=min(values)), high._replace(value=max(values)), instrument, None, full_turn=False
            )

    def gauge(self, gauge: Gauge, index: int) -> None:
        """Take a gauge result that is known."""
        if gauge.result == "unknown":
            return
        size = gauge.measured or gauge.size
        spread = scalar_spread(size, "gauge", self._case, self._book)
        self._inputs.append(
            self._log.keep(
                ("sides", self._name, "gauges", index),
                _gauge_words(gauge, size.value),
                _how_far(gauge),
                spread.words("mm"),
                assumed=spread.assumed,
            )
        )
        at_20, u = to_reference(size.value, gauge.temperature, self._case, self._book)
        depth, length = (None if each is None else each.value for each in (gauge.depth, gauge.length))
        self._gauges.append(metrology.Gauge(gauge.kind, at_20, sqrt(spread.u**2 + u**2), gauge.result, depth, length))

    def sheet(self) -> BoreSheet:
        """Return what was written."""
        seat = self._side.seat_depth
        depth = seat.value if seat else self._likely_depth()
        made = metrology.Sheet(
            tuple(self._readings), tuple(self._spans), tuple(self._gauges), depth, assumptions(self._book),
            tuple(self._scans), self._book.limits["decision.confidence"].value,
        )
        used = tuple(map(self._instrument, made.instruments))
        contacts = {each.id: self._book.instruments[each.kind].handling.anvil for each in used}
        assumed = any(instrument_spread(each, self._book).assumed for each in used)
        noted = tuple(map(self._note_instrument, used))
        return BoreSheet(off_narrow_ends(made, contacts), tuple(self._inputs), used, noted, assumed)

    def _correct(self, value: float, instrument: Instrument) -> Corrected:
        seat = self._side.seat_depth
        return correct(value, instrument, seat.value if seat else None, self._case, self._book)

    def _note_instrument(self, instrument: Instrument) -> str:
        index = self._case.bench.instruments.index(instrument)
        kind = self._book.instruments[instrument.kind].title
        dated = f"calibrated {instrument.calibrated}" if instrument.calibrated else "calibration date unknown"
        drift = ring_drift(instrument)
        ring = (
            "setting ring not read before and after" if drift is None else f"setting ring moved {drift * 1000:.0f} um"
        )
        spread = instrument_spread(instrument, self._book)
        path = ("bench", "instruments", index)
        return self._log.keep(path, f"instrument {instrument.id}", f"{kind}, {dated}, {ring}", _words(spread))

    def _likely_depth(self) -> float:
        """Return how deep the seat is at least: the longest part that could go in, or the deepest reading."""
        standard = self._book.standards.get(self._case.frame.standard)
        named = () if standard is None else standard.parts
        lengths = [self._book.parts[each].length for each in named or self._book.parts]
        return max([*lengths, *(each.depth or 0.0 for each in self._readings), *(each.depth for each in self._scans)])

    def _add_span(
        self, low: Corrected, high: Corrected, instrument: Instrument, depth: float | None, *, full_turn: bool
    ) -> None:
        sees = sees_of(instrument, self._book)
        self._spans.append(
            metrology.Span(low.value, high.value, instrument.id, sees, depth, low.spread.own, low.shared, full_turn)
        )

    def _note(self, path: Path, what: str, shown: str, spread: InstrumentSpread) -> None:
        self._inputs.append(self._log.keep(path, what, shown, _words(spread), assumed=spread.assumed))

    def _instrument(self, wanted: str) -> Instrument:
        found = self._case.bench.instrument(wanted)
        assert found is not None, "the case loader refuses readings by an unknown instrument"
        return found


def section_words(found: Section) -> str:
    """Return the circles of a scanned section in words, as read."""
    circles = (("least squares", found.least_squares), ("inscribed", found.inscribed),
               ("circumscribed", found.circumscribed))
    sizes = ", ".join(f"{name} {each.diameter:.4f} mm" for name, each in circles)
    return f"{found.points} points: {sizes}, minimum zone {found.zone.width * 1000:.1f} um"


def _gauge_words(gauge: Gauge, size: float) -> str:
    return f"{gauge.kind.replace('_', '-')} gauge {size:.3f} mm"


def _how_far(gauge: Gauge) -> str:
    if gauge.depth is not None:
        return f"entered to {gauge.depth.value:g} mm"
    return "entered fully" if gauge.result == "enters_fully" else "did not enter"


def _words(spread: InstrumentSpread) -> str:
    half = COVERAGE * sqrt(spread.own**2 + spread.shared**2) * 1000
    return f"within {half:.0f} um" + (", assumed" if spread.assumed else "")
