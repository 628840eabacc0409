"""Facts of one bore from its draws: size, form, seat and state."""

from math import sqrt
from typing import NamedTuple

import numpy as np

from recommender.bench.case import Case
from recommender.bench.sides import Side
from recommender.deriving.collector import Collector
from recommender.deriving.derived import SideName
from recommender.deriving.measured import MeasuredLog
from recommender.deriving.sheet import BoreSheet
from recommender.deriving.spreads import COVERAGE, Spread, scalar_spread
from recommender.metrology.draws import Draws
from recommender.metrology.scan import section_of
from recommender.rulebook.book import Rulebook, Standard

NOT_READ = "the bore was not read"
NO_STANDARD = "no shell standard is named that it could differ from"
AGAINST_STANDARD = ("bore.off_nominal", "bore.over_upper_limit", "bore.under_lower_limit", "cause.radial_excess")
MM_FACTS = {
    "bore.mean_diameter": "mean",
    "bore.inscribed_diameter": "inscribed",
    "bore.widest_diameter": "widest",
    "bore.mouth_diameter": "mouth",
    "bore.inner_diameter": "bottom",
}
OTHERS = ("bore.roundness", *AGAINST_STANDARD)
UM_FACTS = {"bore.ovality": "ovality", "bore.lobing": "lobing", "bore.taper": "taper"}


class Wall(NamedTuple):
    """A wall thickness in mm with its spread, and how facts refer to it."""

    value: float
    spread: Spread
    name: str


def bore_facts(draws: Draws | None, sheet: BoreSheet, standard: Standard | None, made: Collector) -> None:
    """Derive size and form from the draws; without any reading every one of them is unknown."""
    if draws is None:
        for fact in (*MM_FACTS, *UM_FACTS, *OTHERS):
            made.unknown(fact, NOT_READ)
        return
    for fact, field in MM_FACTS.items():
        made.drawn(fact, getattr(draws, field), draws.by, sheet.inputs, sheet.assumed)
    for fact, field in UM_FACTS.items():
        values = np.abs(getattr(draws, field)) * 1000
        made.drawn(fact, values, draws.by, sheet.inputs, sheet.assumed)
    _roundness(sheet, made)
    _against_standard(draws, standard, made)


def _roundness(sheet: BoreSheet, made: Collector) -> None:
    """Derive the minimum zone of the worst scanned section, noise of its points included."""
    scans = sheet.sheet.scans
    if not scans:
        made.unknown("bore.roundness", "only a scan shows the whole form of a section")
        return
    zone = max(section_of(each.points, each.depth).zone.width for each in scans) * 1000
    half = COVERAGE * max(each.u for each in scans) / sqrt(2.0) * 1000
    made.between("bore.roundness", zone, max(0.0, zone - half), zone + half, *sheet.inputs)


def _against_standard(draws: Draws, standard: Standard | None, made: Collector) -> None:
    if standard is None or standard.bore is None:
        for fact in AGAINST_STANDARD:
            made.not_applicable(fact, NO_STANDARD, "frame.standard")
        return
    inputs = ("bore.mean_diameter", "frame.standard")
    upper = standard.bore.upper or standard.bore.nominal
    over = draws.mean - upper
    made.drawn("bore.off_nominal", draws.mean - standard.bore.nominal, draws.by, inputs)
    made.drawn("bore.over_upper_limit", over * 1000, draws.by, inputs)
    made.drawn("cause.radial_excess", over / 2, draws.by, inputs)
    if standard.bore.lower is None:
        made.not_applicable("bore.under_lower_limit", "no lower limit of this shell is published", *inputs)
        return
    made.drawn("bore.under_lower_limit", (standard.bore.lower - draws.mean) * 1000, draws.by, inputs)


def seat_facts(case: Case, name: SideName, book: Rulebook, log: MeasuredLog, made: Collector) -> None:
    """Derive depth, wall and state of the bore, and how the last part went in."""
    side: Side = getattr(case.sides, name)
    _depth(case, name, side, book, log, made)
    _wall_fact(case, name, book, log, made)
    _state(name, side, log, made)
    _press(name, side, log, made)


def cutting_wall(case: Case, name: SideName, book: Rulebook, log: MeasuredLog) -> Wall | None:
    """Return the wall a reamer would cut into: the insert's where one is bonded in, else the shell's."""
    side: Side = getattr(case.sides, name)
    own, common = (
        (side.insert_wall, case.frame.insert_wall) if case.frame.insert == "bonded" else (side.wall, case.frame.wall)
    )
    field = "insert_wall" if case.frame.insert == "bonded" else "wall"
    size, path = (own, ("sides", name, field)) if own else (common, ("frame", field))
    if size is None:
        return None
    spread = scalar_spread(size, "wall", case, book)
    noted = log.scalar(path, field.replace("_", " "), size, "mm", spread)
    return Wall(size.value, spread, noted)


def _depth(case: Case, name: SideName, side: Side, book: Rulebook, log: MeasuredLog, made: Collector) -> None:
    if side.seat_depth is None:
        made.unknown("seat.depth", "the depth of the seat was not measured")
        return
    spread = scalar_spread(side.seat_depth, "depth", case, book)
    noted = log.scalar(
        ("sides", name, "seat_depth"),
        "depth of the seat",
        side.seat_depth,
        "mm",
        spread,
    )
    half = spread.u * COVERAGE
    made.between(
        "seat.depth",
        side.seat_depth.value,
        side.seat_depth.value - half,
        side.seat_depth.value + half,
        noted,
        assumed=spread.assumed,
    )


def _wall_fact(case: Case, name: SideName, book: Rulebook, log: MeasuredLog, made: Collector) -> None:
    wall = cutting_wall(case, name, book, log)
    if wall is None:
        made.unknown("seat.wall", "the wall was not measured")
        return
    half = wall.spread.u * COVERAGE
    made.between("seat.wall", wall.value, wall.value - half, wall.value + half, wall.name, assumed=wall.spread.assumed)


def _state(name: SideName, side: Side, log: MeasuredLog, made: Collector) -> None:
    for fact, field in (("bore.cleaned", "cleaned"), ("bore.coating", "coating"), ("bore.cut_before", "cut_before")):
        word = getattr(side.bore_state, field)
        noted = log.keep(("sides", name, "bore_state", field), f"state of the bore: {field.replace('_', ' ')}", word)
        made.word(fact, None if word == "unknown" else word, noted)


def _press(name: SideName, side: Side, log: MeasuredLog, made: Collector) -> None:
    feel = side.press.feel
    noted = log.keep(("sides", name, "press", "feel"), "how the last part went in", feel.replace("_", " "))
    made.word("cause.went_in_freely", None if feel == "unknown" else feel == "no_resistance", noted)
