"""What to fit, turn or cut on a side, and the bearing that goes with it."""

from collections.abc import Mapping

from recommender.deciding.answer import (
    Band,
    BearingShown,
    ClassShown,
    CollisionShown,
    CompoundShown,
    LandShown,
    MakeShown,
    RatingShown,
)
from recommender.deciding.options import OptionResult
from recommender.deriving.derived import Make
from recommender.ground.quantity import show
from recommender.mechanics.clearance import ClassLeft
from recommender.rulebook.book import Bearing, Rulebook

UM = 1e-3
RATINGS = ("dynamic_rating", "static_rating", "life", "static_reserve")
RATED_FOR = ("riding.mean_load", "riding.cadence", "pedalling.test_force")
RATED_BY = "ISO 281 and ISO 76"
WITHIN = "making.measured_within"
CLASS_IN_HAND, ROOM, WIDEST_ROOM = "part.clearance_class", "part.spindle_room", "spindle.widest_room"


def make_shown(chosen: OptionResult, missing: tuple[str, ...], proceed: bool, book: Rulebook) -> MakeShown:
    """Return what to make; it is released only when the frame proceeds and nothing is missing before work."""
    option = chosen.option
    make = option.make or Make()
    band = make.od or (make.lands[0].od if make.lands else make.bore)
    lands = tuple(LandShown(land.start, land.end, land.od) for land in make.lands)
    to_be_measured = make.window and (band or option.condition)
    within = book.limits.get(WITHIN) if to_be_measured else None
    return MakeShown(
        option.part, option.part_id, option.condition, make.od, make.window, make.bound_by,
        None if band is None else round((band[1] - band[0]) / 2, 5), make.bore, dict(make.sleeve or {}), lands,
        make.wall_left, _whole(make.press_force or {}), make.valid_at, missing, proceed and not missing, make.grade,
        None if within is None else within.value * UM, make.lead_in, make.seat_before, dict(make.press_force or {}),
        collision_shown(make), make.lead_in_within, None if make.compound is None else CompoundShown(*make.compound),
        make.class_window,
    )  # fmt: skip


def bearing_shown(chosen: OptionResult, book: Rulebook) -> BearingShown | None:
    """Return the bearing of a part and the clearance class to choose; None where the parts list knows no bearing."""
    part = book.parts.get(chosen.option.part_id)
    named = chosen.option.bearing or ("" if part is None else part.bearing)
    bearing = book.bearings.get(named)
    if bearing is None:
        return None
    classes = chosen.option.classes
    shown = tuple(_class(each, classes[0]) for each in classes)
    first = classes[0].name if classes else None
    stated = chosen.option.facts.get(CLASS_IN_HAND)
    spindle = _thinner_spindle(chosen, bearing, book)
    reducer = None if spindle is None else (bearing.inner, spindle)
    alike = () if spindle is None else _through(spindle, bearing, first, book)
    return BearingShown(
        bearing.id, bearing.inner, bearing.outer, bearing.width, first, shown, stated is not None and stated.known,
        reducer, alike, _rating(chosen, book),
    )  # fmt: skip


def _rating(chosen: OptionResult, book: Rulebook) -> RatingShown | None:
    """Return the ratings of the bearing where its balls are known."""
    facts = chosen.option.facts
    dynamic, static, life, reserve = (facts.get(f"bearing.{each}") for each in RATINGS)
    if dynamic is None or static is None or life is None or None in (dynamic.value, static.value, life.value):
        return None
    load, turns, test = (book.limits[each].value for each in RATED_FOR)
    left = None if reserve is None else reserve.value
    hours = round(life.value or 0.0, -3)
    return RatingShown(round(dynamic.value or 0.0, -1), round(static.value or 0.0, -1), hours, load, turns, left, test,
                       RATED_BY)


def _thinner_spindle(chosen: OptionResult, bearing: Bearing, book: Rulebook) -> float | None:
    """Return the spindle (mm) where it leaves more room in the bearing than an ordinary fit does, else None."""
    room, widest = chosen.option.facts.get(ROOM), book.limits.get(WIDEST_ROOM)
    if room is None or room.value is None or widest is None or room.value <= widest.value:
        return None
    return round(bearing.inner - room.value, 3)


def _through(spindle: float, bearing: Bearing, clearance: str | None, book: Rulebook) -> tuple[str, ...]:
    """Return the bearings of the same outside diameter and clearance class with the spindle's bore, and their sizes."""
    widest = book.limits[WIDEST_ROOM].value
    alike = (each for each in book.bearings.values() if each.outer == bearing.outer)
    return tuple(
        f"{each.id}, {each.inner:g} x {each.outer:g} x {each.width:g} mm"
        for each in alike if 0 <= each.inner - spindle <= widest and (clearance is None or clearance in each.sold)
    )  # fmt: skip


def _class(one: ClassLeft, best: ClassLeft) -> ClassShown:
    left = (round(one.left.least / UM, 2), round(one.left.greatest / UM, 2))
    return ClassShown(one.name, left, "" if one is best else _why_not(one))


def _why_not(one: ClassLeft) -> str:
    """Return how far a class may leave what is wanted, in words."""
    told = [
        f"up to {show(by / UM, 'um')} {how}"
        for by, how in ((one.too_tight_by, "too tight"), (one.too_loose_by, "too loose")) if by > 0
    ]  # fmt: skip
    return " and ".join(told) or "no better than the class named"


def _whole(forces: Mapping[str, Band]) -> Band | None:
    if not forces:
        return None
    return min(low for low, _ in forces.values()), max(high for _, high in forces.values())


def collision_shown(make: Make | None) -> CollisionShown | None:
    """Return why no diameter is left for a part; None where one is."""
    return None if make is None or make.collision is None else CollisionShown(*make.collision)
