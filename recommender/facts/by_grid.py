"""Facts that grids of the rule files answer: their words are those the grid gives."""

from recommender.facts.fact import Fact, Scope

ROWS = "the row of the grid that the inputs lie in"


def _of_the_shop(scope: Scope) -> Fact:
    return Fact(
        f"shop.{scope}_class", scope, "word", f"the shop's own class of the {scope}",
        f"What a grid of the house makes of the {scope}, in words of the house; without such a grid nobody may ask it.",
        ROWS, "nothing_here", "settle what the grid asks", by_grid=True,
    )  # fmt: skip


FACTS: tuple[Fact, ...] = (
    Fact(
        "frame.bearing", "frame", "word", "bearing for the spindle",
        "The listed bearing of this shell with the smallest bore that the stated spindle goes through.",
        ROWS, "papers", "state the diameter of the spindle that will run in it", by_grid=True,
    ),
    Fact(
        "bearing.class_advice", "option", "word", "what gives the bearing clearance",
        "Whether the clearance class named leaves enough, or else what would: another class or fit, or a rounder bore.",
        ROWS, "nothing_here", "only the pressed bearing tells: spin it by hand", by_grid=True,
    ),
    Fact(
        "compound.cures", "option", "word", "how a compound cures here",
        "Whether a compound fills the gap and cures between the materials: alone, with its activator, or not at all.",
        ROWS, "reading", "measure bore and part more finely", by_grid=True,
    ),
    _of_the_shop("frame"),
    _of_the_shop("side"),
    _of_the_shop("option"),
)  # fmt: skip
