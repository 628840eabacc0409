"""Alignment of the two bores, as the angle a bearing would see."""

from math import hypot

from recommender.bench.case import Case
from recommender.bench.quantities import MeasuredAngle, MeasuredLength
from recommender.deriving.collector import Collector
from recommender.deriving.measured import MeasuredLog
from recommender.deriving.spreads import COVERAGE, Spread, scalar_spread
from recommender.facts.value import FactValue
from recommender.mechanics.alignment import seat_angle
from recommender.rulebook.book import Rulebook

NOT_MEASURED = "the alignment of the two bores was not measured"


def alignment_facts(case: Case, book: Rulebook, log: MeasuredLog, made: Collector) -> None:
    """Derive the misalignment at a bearing: angle from the offset over the span, plus the stated angle."""
    stated = case.alignment
    method = "not measured" if stated is None else stated.method.replace("_", " ")
    noted = log.keep(("alignment",), "alignment of the bores", method)
    made.word("alignment.measured", stated is not None and None not in (stated.offset, stated.angle), noted)
    if stated is None or stated.offset is None or stated.angle is None:
        made.unknown("alignment.angle", NOT_MEASURED)
        return
    span = seat_span(case)
    if span is None:
        made.unknown(
            "alignment.angle", "shell width or seat depth is missing, so the span between the seats is not known"
        )
        return
    offset, angle = _spreads(stated.offset, stated.angle, case, book)
    inputs = (
        log.scalar(
            ("alignment", "offset"),
            "offset of the bore axes",
            stated.offset,
            "mm",
            offset,
        ),
        log.scalar(
            ("alignment", "angle"),
            "angle between the bore axes",
            stated.angle,
            "arcmin",
            angle,
        ),
    )
    value = float(seat_angle(stated.offset.value, span, stated.angle.value))
    half = COVERAGE * hypot(float(seat_angle(offset.u, span)), angle.u)
    made.between(
        "alignment.angle", value, max(0.0, value - half), value + half, *inputs, assumed=offset.assumed or angle.assumed
    )


def misalignment_fact(angle: FactValue, made: Collector) -> None:
    """Derive how far out of line the bearing of an option may stand: the angle of its seat plus its own rocking.

    A part of unknown diameter has no known rocking; it is not cleared as long as that is so, and the angle of the
    seat alone may still bar it.
    """
    rocking = made.facts.get("fit.rocking")
    if angle.value is None or angle.low is None or angle.high is None:
        made.unknown("bearing.misalignment", angle.why_unknown, "alignment.angle")
        return
    swings = (0.0, 0.0, 0.0)
    if rocking is not None and rocking.value is not None and rocking.low is not None and rocking.high is not None:
        swings = (rocking.value, rocking.low, rocking.high)
    value, low, high = angle.value + swings[0], angle.low + swings[1], angle.high + swings[2]
    made.between("bearing.misalignment", value, low, high, "alignment.angle", "fit.rocking", assumed=angle.assumed)


def seat_span(case: Case) -> float | None:
    """Return the distance between the middles of the two seats in mm, None when a length is missing."""
    depths = [side.seat_depth for _, side in case.sides.items()]
    if case.frame.shell_width is None or any(depth is None for depth in depths):
        return None
    return case.frame.shell_width.value - sum(depth.value for depth in depths if depth is not None) / 2


def _spreads(offset: MeasuredLength, angle: MeasuredAngle, case: Case, book: Rulebook) -> tuple[Spread, Spread]:
    of_offset = scalar_spread(offset, "offset", case, book)
    if angle.within is None:
        return of_offset, Spread(book.limits["alignment.default_spread"].value / COVERAGE, assumed=True)
    return of_offset, Spread(angle.within / COVERAGE, assumed=False)
