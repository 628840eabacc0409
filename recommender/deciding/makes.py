"""What to fit, turn or cut on a side, and the bearing that goes with it."""

from recommender.deciding.answer import BearingShown, LandShown, MakeShown
from recommender.deciding.options import OptionResult
from recommender.deriving.derived import Make
from recommender.facts.value import FactValue
from recommender.rulebook.book import Bearing, Rulebook


def make_shown(chosen: OptionResult, missing: tuple[str, ...], proceed: bool) -> MakeShown:
    """Return what to make; it is released only when the frame proceeds and nothing is missing before work."""
    option = chosen.option
    make = option.make or Make()
    band = make.od or (make.lands[0].od if make.lands else make.bore)
    lands = tuple(LandShown(land.start, land.end, land.od) for land in make.lands)
    return MakeShown(
        option.part, option.part_id, option.condition, make.od, make.window, make.bound_by,
        None if band is None else round((band[1] - band[0]) / 2, 5), make.bore, dict(make.sleeve or {}), lands,
        make.wall_left, make.press_force, make.valid_at, missing, proceed and not missing,
    )


def bearing_shown(chosen: OptionResult, book: Rulebook) -> BearingShown | None:
    """Return the bearing of a part and the clearance class to choose; None where the parts list knows no bearing."""
    part = book.parts.get(chosen.option.part_id)
    bearing = None if part is None else book.bearings.get(part.bearing)
    if bearing is None:
        return None
    left = chosen.option.facts.get("bearing.clearance_left")
    return BearingShown(bearing.id, bearing.inner, bearing.outer, bearing.width, clearance_class(left, bearing))


def clearance_class(left: FactValue | None, bearing: Bearing) -> str | None:
    """Return the tightest class sold that keeps clearance after pressing, else the largest; None when not known.

    `left` is what the largest class sold keeps (um); a tighter class keeps less by the difference of the low ends of
    the two classes.
    """
    if left is None or left.low is None or not bearing.sold:
        return None
    by_size = sorted(bearing.sold, key=lambda each: bearing.clearance[each])
    largest = bearing.clearance[by_size[-1]][0]
    lost = {each: (largest - bearing.clearance[each][0]) * 1000 for each in by_size}
    return next((each for each in by_size if left.low - lost[each] >= 0), by_size[-1])
