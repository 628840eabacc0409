"""Rows of the linear model of a bore: what each reading says about its size and form.

Unknowns, in this order: diameter of the straight wall line at mid seat (mm); taper t (mm per mm of depth); cosine and
sine of the two-lobe, three-lobe and five-lobe diameter amplitudes (mm); bow (mm), the deviation of the wall from
straight at mid seat, none at both ends.
A two-point reading sees even lobes only, a self-centring three-point one multiples of three only (equilateral
contact triangle, first order; second-order terms are below 0.2 um here). Five lobes are seen by neither.
"""

from collections.abc import Sequence
from math import cos, radians, sin, sqrt
from typing import NamedTuple

import numpy as np

from recommender.metrology.full_turns import FullTurn, apart, taken_alone
from recommender.metrology.harmonics import harmonics
from recommender.metrology.sheet import Assumptions, Reading, Scan, Sees, Shared, Sheet, Span, spans

SIZE, TAPER, BOW = 0, 1, 8
TWO_LOBES, THREE_LOBES, FIVE_LOBES = (2, 3), (4, 5), (6, 7)
UNKNOWNS = 9
LOBES: dict[Sees, int] = {"two_point": 2, "three_point": 3}
PLACES: dict[Sees, tuple[int, int]] = {"two_point": TWO_LOBES, "three_point": THREE_LOBES}


class Row(NamedTuple):
    """One observed value (mm), its coefficients, its own variance (mm2) and the errors it shares.

    `source` counts the readings of the sheet first, then its spans, then its scans.
    """

    value: float
    coefficients: tuple[float, ...]
    variance: float
    shared: Shared
    source: int


def coefficients(
    depth: float, seat_depth: float, sees: Sees | None = None, turn: float = 0.0
) -> tuple[float, ...]:
    """Return the nine coefficients of a reading at a depth (mm) and turn (deg); without `sees` of the mean."""
    found = [0.0] * UNKNOWNS
    found[SIZE], found[TAPER] = 1.0, depth - seat_depth / 2
    found[BOW] = 1 - (2 * depth / seat_depth - 1) ** 2 if seat_depth else 1.0
    if sees is not None:
        angle = radians(LOBES[sees] * turn)
        found[PLACES[sees][0]], found[PLACES[sees][1]] = cos(angle), sin(angle)
    return tuple(found)


def rows(sheet: Sheet) -> tuple[Row, ...]:
    """Return the rows of a sheet in a fixed order that does not depend on the order of its readings."""
    found: list[Row] = []
    for index, each in enumerate(sheet.readings):
        if each.turn is not None and each.depth is not None:
            found.append(_of_reading(each, each.depth, each.turn, sheet.seat_depth, index))
    alone = {sees: taken_alone(sheet, sees) for sees in LOBES}
    for index, span in enumerate(spans(sheet), len(sheet.readings)):
        found.extend(_of_span(span, alone[span.sees], sheet, index))
    for index, scan in enumerate(sheet.scans, len(sheet.readings) + len(spans(sheet))):
        found.extend(_of_scan(scan, sheet.seat_depth, sheet.assumptions.section_sd, index))
    _check(found)
    return tuple(sorted(found, key=lambda row: row[:4]))


def _check(found: Sequence[Row]) -> None:
    if not found:
        raise ValueError("nothing was read of this bore; its size cannot be worked out")
    if any(row.variance <= 0 for row in found):
        raise ValueError("every reading needs a standard uncertainty above zero")


def _of_reading(reading: Reading, depth: float, turn: float, seat_depth: float, index: int) -> Row:
    return Row(reading.value, coefficients(depth, seat_depth, reading.sees, turn), reading.u**2, reading.shared, index)


def _of_span(span: Span, alone: tuple[FullTurn, ...], sheet: Sheet, index: int) -> list[Row]:
    depth = sheet.seat_depth / 2 if span.depth is None else span.depth
    mean = coefficients(depth, sheet.seat_depth)
    shared = span.shared + _doubt_of_depth(span, sheet)
    middle = (span.smallest + span.largest) / 2
    if not span.full_turn:
        return [Row(middle, mean, span.u**2 + unseen_form(span, sheet.assumptions) ** 2, shared, index)]
    variance = span.u**2 / 2
    size = Row(middle, mean, variance + sheet.assumptions.section_sd**2, shared, index)
    return [size, *_lobes_of(span, variance + apart(alone) ** 2, index)] if alone else [size]


def _of_scan(scan: Scan, seat_depth: float, section_sd: float, index: int) -> list[Row]:
    """Return what the points of a section say of size and form, as rows with independent errors.

    An error all points share, as of size or temperature, is one of the diameter. A section departs from one form
    all along the seat by `section_sd` in its size and in each component of its lobes.
    """
    mean = coefficients(scan.depth, seat_depth)
    made = []
    for own, (value, size, *form) in enumerate(harmonics(scan.scale * np.array(scan.points))):
        row = [size * each for each in mean]
        for place, amount in zip((*TWO_LOBES, *THREE_LOBES, *FIVE_LOBES), form, strict=True):
            row[place] = amount
        shared = tuple((name, u * size) for name, u in scan.shared if size)
        variance = scan.u**2 + (section_sd * (size, *form)[own]) ** 2
        made.append(Row(value, tuple(row), variance, shared, index))
    return made


def _lobes_of(span: Span, variance: float, index: int) -> list[Row]:
    """Return the half swing of a full turn, with turns counted from its largest, where no turn was ever recorded.

    The size of the inscribed circle does not depend on how the lobes are turned, so any origin will do. Across the
    largest there is nothing, within the doubt of half the swing.
    """
    found = []
    for place, value, doubt in zip(PLACES[span.sees], ((span.largest - span.smallest) / 2, 0.0),
                                   (variance, span.u**2 / 2), strict=True):
        lobes = [0.0] * UNKNOWNS
        lobes[place] = 1.0
        found.append(Row(value, tuple(lobes), doubt, (), index))
    return found


def _doubt_of_depth(span: Span, sheet: Sheet) -> Shared:
    """Return what an unknown depth adds: taper times a depth anywhere in the seat (rectangular)."""
    if span.depth is not None or not sheet.seat_depth:
        return ()
    name = f"depth of {span.instrument} {span.smallest} {span.largest}"
    return ((name, sheet.assumptions.taper_sd * sheet.seat_depth / sqrt(12.0)),)


def unseen_form(span: Span, assumed: Assumptions) -> float:
    """Return the standard deviation (mm) of a reading at an unknown turn about the mean diameter."""
    assumed_sd = assumed.ovality_sd if span.sees == "two_point" else assumed.lobing_sd
    return max(assumed_sd, (span.largest - span.smallest) / 2)
