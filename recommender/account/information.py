"""What is told for information and decides nothing: how each fit holds, and the ratings of the bearings."""

from collections.abc import Iterator

from recommender.account.answer_side import chosen
from recommender.account.numbers import with_interval
from recommender.account.rating_text import rating_text
from recommender.account.words import SIDES, capital
from recommender.deciding.answer import Advice, SideShown

HOLDS = ("grip.gaps_at", "grip.axial", "grip.torque")
GLUED = ("press_with_compound",)


def information(advice: Advice) -> list[str]:
    """Return how the part of each side holds, then what is known of the rating of each bearing, each once."""
    held = (f"{capital(SIDES[name])}: {text}" for name, side in advice.sides.items() for text in holding(side))
    rated = (rating_text(side.bearing) for side in advice.sides.values())
    return list(dict.fromkeys(each for each in (*held, *rated) if each))


def holding(side: SideShown) -> Iterator[str]:
    """Yield at which pedal force the seat starts to gap, and what friction holds; nothing of a glued part."""
    option = chosen(side)
    if option is None or side.remedy in GLUED:
        return
    found = [option.facts.get(each) for each in HOLDS]
    if any(each is None or each.value is None for each in found):
        return
    gaps, axial, torque = (with_interval(each) for each in found if each is not None)
    yield (
        f"the seat starts to gap near {gaps} of pedal force; friction alone holds {axial} along the axis and "
        f"{torque} round it."
    )
