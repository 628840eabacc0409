"""What the ratings of a bearing say, for information."""

from recommender.deciding.answer import BearingShown
from recommender.ground.quantity import show


def rating_text(bearing: BearingShown | None) -> str:
    """Return the ratings of a bearing, its life and its static reserve; nothing where its balls are not known."""
    if bearing is None or bearing.rating is None:
        return ""
    found = bearing.rating
    pedal, reserve = show(found.test_force_n, "N"), found.static_reserve
    against = "" if reserve is None else f" Static rating over its load from {pedal} at the pedal: {reserve:.2f}."
    return (
        f"Bearing {bearing.designation}: rated {show(found.dynamic_n, 'N')} dynamic and {show(found.static_n, 'N')} "
        f"static ({found.source}). Under {show(found.mean_load_n, 'N')} at {found.turns_per_minute:.0f} turns a minute "
        f"nine of ten last about {show(found.life_h, 'h')}.{against} Decides nothing here: lost clearance and overload "
        "end such bearings, not fatigue."
    )
