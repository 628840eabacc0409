"""What openings beside a seat do to its strain and its hold, as far as anybody measured them."""

import numpy as np

from recommender.bench.case import Case
from recommender.bench.frame import Opening
from recommender.deriving.collector import Collector
from recommender.deriving.derived import SideName
from recommender.deriving.draws_of import Array, even
from recommender.deriving.measured import MeasuredLog
from recommender.deriving.spreads import COVERAGE, scalar_spread
from recommender.mechanics.amount import ends, middle
from recommender.mechanics.openings import (
    FULL_DEPTH_SLOT,
    PLAIN,
    Factors,
    OpeningTable,
    Row,
    at_joint,
    faded,
    worst,
)
from recommender.mechanics.seat import decay_length
from recommender.rulebook.book import Rulebook

PORT_ROWS = (("port_eighth", 1 / 8), ("port_quarter", 1 / 4), ("port_three_quarters", 3 / 4))
RECESS_ROWS = (("recess_third", 1 / 3), ("recess_half", 1 / 2), ("recess_two_thirds", 2 / 3))
HOLES = ("port", "drain_hole", "slot")
FACTS = ("opening.tension_factor", "opening.compression_factor", "opening.hold_left")
FLAGS = ("seat.port_near", "seat.open_slot", "seat.ligament_share")
NOT_KNOWN = "it is not known well enough how far"
NOBODY = "nobody noted whether the shell has openings"


def openings_beside(case: Case, name: SideName, book: Rulebook, log: MeasuredLog, made: Collector) -> Factors:
    """Derive what opens the shell beside the seat and return its factors.

    Where nobody noted openings, or nobody measured one, the factors keep everything open from the plain ring to the
    worst row of the table.
    """
    openings = case.frame.openings
    noted = log.keep(
        ("frame", "openings"), "openings in the shell", "unknown" if openings is None else f"{len(openings)} noted"
    )
    if openings is None:
        for fact in FLAGS:
            made.unknown(fact, NOBODY, noted)
        factors = _between(PLAIN, port_table(book).at(PORT_ROWS[0][1]))
    else:
        mine = [each for each in openings if each.side in (name, None)]
        _flags(mine, case, name, book, noted, made)
        factors = _together(mine, case, name, book)
    _facts(factors, noted, made)
    return factors


def port_table(book: Rulebook) -> OpeningTable:
    """Return the factors of a round port against its ligament over its size, from the limits of the book."""
    return OpeningTable([Row(ratio, _row(book, name)) for name, ratio in PORT_ROWS])


def recess_table(book: Rulebook) -> OpeningTable:
    """Return the factors of a recess against the wall left over the wall beside it, from the limits of the book."""
    rows = [Row(ratio, _row(book, name)._replace(hold=_value(book, f"{name}.hold"))) for name, ratio in RECESS_ROWS]
    return OpeningTable([*rows, Row(1.0, PLAIN)])


def table_limits() -> tuple[str, ...]:
    """Return the ids of the limits that make up both tables."""
    rows = [f"{name}.{sign}" for name, _ in (*PORT_ROWS, *RECESS_ROWS) for sign in ("tension", "compression")]
    return (*rows, *(f"{name}.hold" for name, _ in RECESS_ROWS))


def _value(book: Rulebook, limit: str) -> float:
    return book.limits[limit].value


def _row(book: Rulebook, name: str) -> Factors:
    return Factors(_value(book, f"{name}.tension"), _value(book, f"{name}.compression"), 1.0)


def _facts(factors: Factors, noted: str, made: Collector) -> None:
    inputs = (noted, *(f"limit:{each}" for each in table_limits()))
    for fact, values in zip(FACTS, factors, strict=True):
        low, high = (values, values) if isinstance(values, float) else ends(values)
        made.between(fact, middle(values), low, high, *inputs)


def _together(openings: list[Opening], case: Case, name: SideName, book: Rulebook) -> Factors:
    """Return the strictest factors of all openings; a joint may run through the worst of them."""
    decay = decay_of(case, name, book)
    left = [(each, _fading(_whole(each, case, name, book), each, case, book, decay)) for each in openings]
    factors = worst([found for each, found in left if each.kind != "joint"])
    joints = worst([found for each, found in left if each.kind == "joint"])
    return factors._replace(tension=factors.tension * joints.tension)


def _whole(opening: Opening, case: Case, name: SideName, book: Rulebook) -> Factors:
    """Return what an opening within the seat does; a ratio below the table counts as its first row.

    The rule about thin ligaments bars such openings by themselves.
    """
    if opening.kind == "slot":
        return FULL_DEPTH_SLOT
    if opening.kind == "joint":
        return at_joint(PLAIN, _value(book, "joint.strength_left"))
    if opening.kind == "recess":
        return recess_table(book).at(_ratio(_wall_share(opening, case, name, book), RECESS_ROWS, 1.0))
    return port_table(book).at(_ratio(ligament_share(opening, case, book), PORT_ROWS, PORT_ROWS[-1][1]))


def _ratio(share: tuple[float, float, float] | None, rows: tuple[tuple[str, float], ...], most: float) -> Array:
    """Return draws of a ratio within the table, the worse ones where all doubts about openings are worse."""
    low, high = (rows[0][1], most) if share is None else share[1:]
    return np.maximum(even("opening", high, low), rows[0][1])


def _fading(factors: Factors, opening: Opening, case: Case, book: Rulebook, decay: float | None) -> Factors:
    """Return what is left of the factors at the opening's distance; where that is unknown, anything down to none."""
    if opening.seat_distance is None or decay is None:
        return _between(PLAIN, factors)
    half = scalar_spread(opening.seat_distance, "opening", case, book).u * COVERAGE
    distance = opening.seat_distance.value
    return faded(factors, even("opening", distance + half, max(distance - half, 0.0)), decay)


def _between(one: Factors, other: Factors) -> Factors:
    """Return draws spread evenly from one opening's factors to another's."""
    share = even("opening", 0.0, 1.0)
    return Factors(*(low + (high - low) * share for low, high in zip(one, other, strict=True)))


def decay_of(case: Case, name: SideName, book: Rulebook) -> float | None:
    """Return the length (mm) over which the shell's wall forgets what happens beside the seat."""
    standard = book.standards.get(case.frame.standard)
    if standard is None or standard.bore is None:
        return None
    thickness = _wall(case, name, book)
    return float(decay_length(standard.bore.nominal / 2 + thickness / 2, thickness, 1.0, 0.3))


def _wall(case: Case, name: SideName, book: Rulebook) -> float:
    wall = getattr(case.sides, name).wall or case.frame.wall
    return float(wall.value) if wall else _value(book, "assumption.wall")


def _flags(
    openings: list[Opening], case: Case, name: SideName, book: Rulebook, noted: str, made: Collector
) -> None:
    reach = decay_of(case, name, book)
    holes = [each for each in openings if each.kind in HOLES]
    near = [_near(each, reach, case, book) for each in openings]
    made.word(
        "seat.port_near",
        _any_near(near),
        noted,
        why=f"{NOT_KNOWN} the opening lies from the seat",
    )
    slots = [_near(each, reach, case, book) for each in openings if each.kind == "slot"]
    made.word("seat.open_slot", _any_near(slots), noted, why=f"{NOT_KNOWN} the slot lies from the seat")
    _ligament(holes, case, book, noted, made)


def _any_near(near: list[bool | None]) -> bool | None:
    return True if True in near else (None if None in near else False)


def _near(opening: Opening, reach: float | None, case: Case, book: Rulebook) -> bool | None:
    """Return whether an opening lies within one decay length; None where its distance is not known well enough."""
    if opening.seat_distance is None or reach is None:
        return None
    half = scalar_spread(opening.seat_distance, "opening", case, book).u * COVERAGE
    beside = opening.seat_distance.value - reach
    return None if abs(beside) < half else beside <= 0


def _ligament(openings: list[Opening], case: Case, book: Rulebook, noted: str, made: Collector) -> None:
    if not openings:
        made.unknown("seat.ligament_share", "there is no opening on this side", noted)
        return
    shares = [ligament_share(each, case, book) for each in openings]
    known = [share for share in shares if share is not None]
    if len(known) < len(openings):
        made.unknown("seat.ligament_share", "opening or ligament was not measured", noted)
        return
    made.between("seat.ligament_share", *min(known, key=lambda share: share[1]), noted)


def ligament_share(opening: Opening, case: Case, book: Rulebook) -> tuple[float, float, float] | None:
    """Return ligament over size of an opening with the ends of its interval, None where one was not measured."""
    if opening.size is None or opening.ligament is None:
        return None
    size, ligament = opening.size.value, opening.ligament.value
    wide = scalar_spread(opening.size, "opening", case, book).u * COVERAGE
    thin = scalar_spread(opening.ligament, "opening", case, book).u * COVERAGE
    smallest = max(size - wide, 0.1 * size)
    return ligament / size, max(0.0, ligament - thin) / (size + wide), (ligament + thin) / smallest


def _wall_share(opening: Opening, case: Case, name: SideName, book: Rulebook) -> tuple[float, float, float] | None:
    """Return wall left over wall of a recess with the ends of its interval, None where it was not measured."""
    if opening.wall_left is None:
        return None
    wall, left = _wall(case, name, book), opening.wall_left.value
    half = scalar_spread(opening.wall_left, "wall", case, book).u * COVERAGE
    return left / wall, max(0.0, left - half) / wall, min(1.0, (left + half) / wall)
