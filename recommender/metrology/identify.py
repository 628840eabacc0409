"""What a set of readings can show at all, whatever the values: the rank of its model."""

from dataclasses import dataclass
from math import hypot, sqrt
from typing import NamedTuple

import numpy as np

from recommender.metrology.full_turns import full_turns
from recommender.metrology.normal import Array
from recommender.metrology.rows import SIZE, TAPER, THREE_LOBES, TWO_LOBES, UNKNOWNS, rows
from recommender.metrology.sheet import Reading, Sheet, Span, reach, spans, turned

SIX = (SIZE, TAPER, *TWO_LOBES, *THREE_LOBES)
LEAST_SHARE = 0.1
COVERAGE = 1.96


@dataclass(frozen=True)
class Seen:
    """Whether the readings show each part of the form without leaning on an assumption.

    `depths` counts the depths read, `rank` the independent things seen out of six (size, taper, two components each
    of two and three lobes), `count` the readings, a span giving two, `full_turns` the depths at which an instrument
    with two contacts was turned all the way round, or the section scanned.
    """

    size: bool
    taper: bool
    ovality: bool
    lobing: bool
    depths: int
    rank: int
    count: int
    full_turns: int


def seen(sheet: Sheet) -> Seen:
    """Return what the readings can show.

    A part is seen when each of its directions, after everything else is fitted, still moves the readings by a tenth
    of its size (rms over the readings it touches); readings a few degrees apart do not show a form. Size is that at
    the depths read.
    """
    known = {each.depth for each in turned(sheet)} | {span.depth for span in spans(sheet)}
    known |= {scan.depth for scan in sheet.scans}
    swings = sum(2 if span.full_turn or span.largest > span.smallest else 1 for span in spans(sheet))
    swept = {span.sees for span in spans(sheet) if span.full_turn}
    all_round = {each.depth for each in full_turns(sheet, "two_point")} | {each.depth for each in sheet.scans}
    design = _design(sheet)
    return Seen(
        size=_shown(np.delete(design, TAPER, axis=1), (SIZE,)),
        taper=_shown(design, (TAPER,)),
        ovality="two_point" in swept or _shown(design, TWO_LOBES),
        lobing="three_point" in swept or _shown(design, THREE_LOBES),
        depths=len(known - {None}),
        rank=int(np.linalg.matrix_rank(design)) if len(design) else 0,
        count=len(turned(sheet)) + swings + sum(len(each.points) for each in sheet.scans),
        full_turns=len(all_round),
    )


class OvalityBound(NamedTuple):
    """The most the bore can be oval, and the standard uncertainty of that, both in mm."""

    most: float
    u: float


def ovality_bound(sheet: Sheet) -> OvalityBound | None:
    """Return the most the bore can be oval (mm), from a plug that went in and three-point readings; else None.

    A three-point reading is the mean of an oval bore, the plug cannot be larger than its inscribed circle: twice the
    three-point mean minus the plug, with the doubt of both. The depth the plug went past that says most counts.
    Derived.
    """
    bounds = [
        OvalityBound(2 * (mean - gauge.size), 2 * hypot(u, gauge.u))
        for gauge in sheet.gauges if gauge.result != "did_not_enter"
        for depth, mean, u in _three_point_means(sheet) if depth <= reach(gauge, sheet.seat_depth)
    ]
    return min(bounds, key=lambda each: each.most + COVERAGE * each.u, default=None)


def _three_point_means(sheet: Sheet) -> list[tuple[float, float, float]]:
    """Return depth, mean of the three-point readings there and its standard uncertainty."""
    at: dict[float, list[tuple[float, Reading | Span]]] = {}
    for each in turned(sheet, "three_point"):
        at.setdefault(each.depth or 0.0, []).append((each.value, each))
    for span in spans(sheet):
        if span.sees == "three_point":
            depth = sheet.seat_depth if span.depth is None else span.depth
            at.setdefault(depth, []).extend(((span.smallest, span), (span.largest, span)))
    return [(depth, *_mean(values)) for depth, values in sorted(at.items())]


def _mean(values: list[tuple[float, Reading | Span]]) -> tuple[float, float]:
    """Return the mean of readings and its standard uncertainty: own errors average out, shared ones do not."""
    count = len(values)
    shared: dict[str, float] = {}
    for _, read in values:
        for name, u in read.shared:
            shared[name] = shared.get(name, 0.0) + u / count
    own = sqrt(sum(read.u**2 for _, read in values)) / count
    return sum(value for value, _ in values) / count, hypot(own, *shared.values())


def _design(sheet: Sheet) -> Array:
    """Return the design of the six unknowns a sheet can show, taper counted from mid seat to its end.

    Readings at unknown turns are left out: what they say of the size leans on the form assumed.
    """
    swept = tuple(span for span in spans(sheet) if span.full_turn)
    firm = sheet._replace(readings=turned(sheet), spans=swept)
    made = [row.coefficients for row in rows(firm)] if firm.was_read else []
    design = np.array(made).reshape(-1, UNKNOWNS)[:, SIX]
    if sheet.seat_depth:
        design[:, TAPER] /= sheet.seat_depth / 2
    return design


def _shown(design: Array, group: tuple[int, ...]) -> bool:
    own = design[:, list(group)]
    others = np.delete(design, list(group), axis=1)
    touched = np.count_nonzero(np.any(own != 0, axis=1))
    if touched < len(group):
        return False
    left = own - others @ np.linalg.lstsq(others, own, rcond=None)[0]
    return bool(np.linalg.svd(left, compute_uv=False)[-1] >= LEAST_SHARE * np.sqrt(touched))
