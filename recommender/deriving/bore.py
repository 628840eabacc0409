"""Facts of one bore from its draws: size, form, seat and state."""

from typing import NamedTuple

import numpy as np

from recommender.bench.case import Case
from recommender.bench.frame import Opening
from recommender.bench.sides import Side
from recommender.deriving.collector import Collector
from recommender.deriving.derived import SideName
from recommender.deriving.measured import MeasuredLog
from recommender.deriving.sheet import BoreSheet
from recommender.deriving.spreads import COVERAGE, Spread, scalar_spread
from recommender.mechanics.seat import decay_length
from recommender.metrology.draws import Draws
from recommender.rulebook.book import Rulebook, Standard

NOT_READ = "the bore was not read"
MM_FACTS = {
    "bore.mean_diameter": "mean",
    "bore.inscribed_diameter": "inscribed",
    "bore.widest_diameter": "widest",
    "bore.mouth_diameter": "mouth",
    "bore.inner_diameter": "bottom",
}
UM_FACTS = {"bore.ovality": "ovality", "bore.lobing": "lobing", "bore.taper": "taper"}


class Wall(NamedTuple):
    """A wall thickness in mm with its spread, and how facts refer to it."""

    value: float
    spread: Spread
    name: str


def bore_facts(draws: Draws | None, sheet: BoreSheet, standard: Standard | None, made: Collector) -> None:
    """Derive size and form from the draws; without any reading every one of them is unknown."""
    if draws is None:
        for fact in (*MM_FACTS, *UM_FACTS, "bore.off_nominal", "bore.over_upper_limit", "cause.radial_excess"):
            made.unknown(fact, NOT_READ)
        return
    for fact, field in MM_FACTS.items():
        made.drawn(fact, getattr(draws, field), draws.weights, draws.effective_count, sheet.inputs, sheet.assumed)
    for fact, field in UM_FACTS.items():
        values = np.abs(getattr(draws, field)) * 1000
        made.drawn(fact, values, draws.weights, draws.effective_count, sheet.inputs, sheet.assumed)
    _against_standard(draws, standard, made)


def _against_standard(draws: Draws, standard: Standard | None, made: Collector) -> None:
    if standard is None or standard.bore is None:
        for fact in ("bore.off_nominal", "bore.over_upper_limit", "cause.radial_excess"):
            made.unknown(fact, "the shell standard is not known", "frame.standard")
        return
    inputs = ("bore.mean_diameter", "frame.standard")
    upper = standard.bore.upper or standard.bore.nominal
    over = draws.mean - upper
    made.drawn("bore.off_nominal", draws.mean - standard.bore.nominal, draws.weights, draws.effective_count, inputs)
    made.drawn("bore.over_upper_limit", over * 1000, draws.weights, draws.effective_count, inputs)
    made.drawn("cause.radial_excess", over / 2, draws.weights, draws.effective_count, inputs)


def seat_facts(case: Case, name: SideName, book: Rulebook, log: MeasuredLog, made: Collector) -> None:
    """Derive depth, wall, state of the bore and what opens the shell beside the seat."""
    side: Side = getattr(case.sides, name)
    _depth(case, name, side, book, log, made)
    _wall_fact(case, name, book, log, made)
    _state(name, side, log, made)
    _openings(case, name, book, log, made)
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


def _openings(case: Case, name: SideName, book: Rulebook, log: MeasuredLog, made: Collector) -> None:
    openings = case.frame.openings
    noted = log.keep(
        ("frame", "openings"), "openings in the shell", "unknown" if openings is None else f"{len(openings)} noted"
    )
    if openings is None:
        for fact in ("seat.port_near", "seat.open_slot", "seat.ligament_share"):
            made.unknown(fact, "nobody noted whether the shell has openings", noted)
        return
    mine = [each for each in openings if each.side in (name, None)]
    reach = _reach(case, name, book)
    near = [_near(each, reach) for each in mine]
    made.word(
        "seat.port_near",
        True if True in near else (None if None in near else False),
        noted,
        why="it was not measured how far the opening lies from the seat",
    )
    made.word(
        "seat.open_slot",
        any(each.kind == "slot" and near_ is not False for each, near_ in zip(mine, near, strict=True)),
        noted,
    )
    _ligament(mine, case, book, noted, made)


def _ligament(openings: list[Opening], case: Case, book: Rulebook, noted: str, made: Collector) -> None:
    if not openings:
        made.unknown("seat.ligament_share", "there is no opening on this side", noted)
        return
    shares = [_share(each, case, book) for each in openings]
    known = [share for share in shares if share is not None]
    if len(known) < len(openings):
        made.unknown("seat.ligament_share", "opening or ligament was not measured", noted)
        return
    made.between("seat.ligament_share", *min(known, key=lambda share: share[1]), noted)


def _share(opening: Opening, case: Case, book: Rulebook) -> tuple[float, float, float] | None:
    """Return ligament over size of an opening with the ends of its interval, None where one was not measured."""
    if opening.size is None or opening.ligament is None:
        return None
    size, ligament = opening.size.value, opening.ligament.value
    wide = scalar_spread(opening.size, "opening", case, book).u * COVERAGE
    thin = scalar_spread(opening.ligament, "opening", case, book).u * COVERAGE
    smallest = max(size - wide, 0.1 * size)
    return ligament / size, max(0.0, ligament - thin) / (size + wide), (ligament + thin) / smallest


def _near(opening: Opening, reach: float | None) -> bool | None:
    """Return whether an opening lies within reach of the seat; one whose distance is not known may do so."""
    if opening.seat_distance is None or reach is None:
        return None
    return opening.seat_distance.value <= reach


def _reach(case: Case, name: SideName, book: Rulebook) -> float | None:
    """Return one decay length of the shell's wall in mm: farther away an opening does not feel the seat."""
    side: Side = getattr(case.sides, name)
    wall = side.wall or case.frame.wall
    thickness = wall.value if wall else book.limits["assumption.wall"].value
    standard = book.standards.get(case.frame.standard)
    if standard is None or standard.bore is None:
        return None
    return float(decay_length(standard.bore.nominal / 2 + thickness / 2, thickness, 1.0, 0.3))


def _press(name: SideName, side: Side, log: MeasuredLog, made: Collector) -> None:
    feel = side.press.feel
    noted = log.keep(("sides", name, "press", "feel"), "how the last part went in", feel.replace("_", " "))
    made.word("cause.went_in_freely", None if feel == "unknown" else feel == "no_resistance", noted)
