"""Facts that only speak on causes: how the bore may have come to be what it is."""

from recommender.facts.fact import Fact

FACTS: tuple[Fact, ...] = (
    Fact(
        "cause.radial_excess",
        "side",
        "number",
        "excess of the bore on the radius",
        "Half of what the mean bore lies above the standard's upper limit, or nominal where none is published.",
        "half the excess on diameter",
        "reading",
        "measure the bore",
        "mm",
        (-5.0, 5.0),
    ),
    Fact(
        "cause.softest_cup",
        "frame",
        "word",
        "softest cup fitted so far",
        "The softest material among the cups fitted so far.",
        "cups of the history",
        "papers",
        "ask what cups were fitted",
        words=("polymer", "aluminium", "steel"),
    ),
    Fact(
        "cause.tightest_past_fit",
        "side",
        "number",
        "tightest fit known so far",
        "Largest measured diameter of an earlier cup minus the mean bore diameter now.",
        "cups of the history and mean diameter",
        "papers",
        "measure the cups taken out",
        "um",
        (-5000.0, 5000.0),
    ),
    Fact(
        "cause.went_in_freely",
        "side",
        "flag",
        "part went in without resistance",
        "The last part went into this bore without resistance.",
        "press record of the case",
        "papers",
        "ask who pressed it and how it felt",
    ),
)
