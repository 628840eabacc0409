"""What was read of one bore: corrected readings, spans and gauges, with what is assumed of the rest.

Lengths in mm at 20 C, depths from the face, turns in degrees.
"""

from typing import Literal, NamedTuple

from recommender.metrology.summary import SHOWN

Sees = Literal["two_point", "three_point"]
Shared = tuple[tuple[str, float], ...]


class Reading(NamedTuple):
    """One reading; `u` is its own standard uncertainty, `shared` names the errors it has in common with others."""

    value: float
    instrument: str
    sees: Sees
    depth: float | None
    turn: float | None
    u: float
    shared: Shared = ()


class Span(NamedTuple):
    """Smallest and largest reading of an instrument at unknown turns, while turning it fully or loose."""

    smallest: float
    largest: float
    instrument: str
    sees: Sees
    depth: float | None
    u: float
    shared: Shared = ()
    full_turn: bool = True


class Scan(NamedTuple):
    """One scanned section: points (x, y) about any centre as read, x towards turn 0 and y towards turn 90.

    `u` is the standard uncertainty of the distance of two opposite points, twice that of a radius; `scale` brings the
    points to 20 C and sets them right.
    """

    points: tuple[tuple[float, float], ...]
    instrument: str
    depth: float
    u: float
    shared: Shared = ()
    scale: float = 1.0


class Gauge(NamedTuple):
    """One try of a full-form plug; `depth` is how far it went, `length` how long it is."""

    kind: Literal["go", "no_go"]
    size: float
    u: float
    result: Literal["enters_fully", "entered_to", "did_not_enter"]
    depth: float | None = None
    length: float | None = None


class Assumptions(NamedTuple):
    """Standard deviations of form no reading has seen.

    `ovality_sd`, `lobing_sd` and `five_lobe_sd` (mm) are those of each cosine and sine component of the diameter
    amplitude; `curvature_sd` (mm) is that of the bow of the wall at mid seat, `taper_sd` in mm per mm. `section_sd`
    (mm): how far a section departs in size and each component from one form all along the seat. `local_share`: chance
    that a depth has a form of its own; `local_most` (mm): by how much more it then swings at most.
    """

    ovality_sd: float
    lobing_sd: float
    five_lobe_sd: float
    curvature_sd: float
    taper_sd: float
    section_sd: float = 0.0
    local_share: float = 0.0
    local_most: float = 0.0


class Sheet(NamedTuple):
    """Everything read of one bore; `confidence` is that with which a bar has to be seen to be kept on it."""

    readings: tuple[Reading, ...]
    spans: tuple[Span, ...]
    gauges: tuple[Gauge, ...]
    seat_depth: float
    assumptions: Assumptions
    scans: tuple[Scan, ...] = ()
    confidence: float = SHOWN

    @property
    def was_read(self) -> bool:
        """Return whether anything was read that says how large the bore is."""
        return bool(self.readings or self.spans or self.scans)

    @property
    def instruments(self) -> tuple[str, ...]:
        """Return the instruments that read it, in order of their names."""
        taken: tuple[Reading | Span | Scan, ...] = (*self.readings, *self.spans, *self.scans)
        return tuple(sorted({each.instrument for each in taken}))


def turned(sheet: Sheet, sees: Sees | None = None) -> tuple[Reading, ...]:
    """Return the readings whose depth and turn are known, of one kind of instrument or all."""
    return tuple(
        each for each in sheet.readings
        if each.turn is not None and each.depth is not None and sees in (None, each.sees)
    )


def spans(sheet: Sheet) -> tuple[Span, ...]:
    """Return the spans, with readings whose turn or depth is not known gathered into loose ones."""
    bags: dict[tuple[str, Sees, float | None], list[Reading]] = {}
    for each in sheet.readings:
        if each.turn is None or each.depth is None:
            bags.setdefault((each.instrument, each.sees, each.depth), []).append(each)
    return (*sheet.spans, *(_bag(bag) for bag in bags.values()))


def reach(gauge: Gauge, seat_depth: float) -> float:
    """Return the depth in mm down to which a gauge result speaks; a short plug proves nothing deeper."""
    if gauge.result == "did_not_enter":
        return 0.0
    went = gauge.depth if gauge.depth is not None else gauge.length
    return seat_depth if went is None else min(went, seat_depth)


def _bag(bag: list[Reading]) -> Span:
    values = [each.value for each in bag]
    first, u = min(bag, key=lambda each: each.value), max(each.u for each in bag)
    return Span(min(values), max(values), first.instrument, first.sees, first.depth, u, first.shared, full_turn=False)
