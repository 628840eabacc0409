"""Facts about the bearing that goes with a part: its rating, its life, and how far out of line it would stand."""

from recommender.facts.fact import Fact

OTHER = "choose another bearing"

FACTS: tuple[Fact, ...] = (
    Fact(
        "bearing.dynamic_rating", "option", "number", "dynamic rating of the bearing",
        "Basic dynamic radial rating of the bearing, for information.", "count and size of the balls", "nothing_here",
        OTHER, "N", (0.0, 1e6), source="ISO 281",
    ),
    Fact(
        "bearing.static_rating", "option", "number", "static rating of the bearing",
        "Basic static radial rating of the bearing, for information.", "count and size of the balls", "nothing_here",
        OTHER, "N", (0.0, 1e6), source="ISO 76",
    ),
    Fact(
        "bearing.life", "option", "number", "fatigue life of the bearing",
        "Hours that nine of ten such bearings reach at the mean load of riding, for information.",
        "dynamic rating over load, to the third power", "nothing_here", OTHER, "h", (0.0, 1e9), source="ISO 281",
    ),
    Fact(
        "bearing.static_reserve", "option", "number", "static reserve of the bearing",
        "Static rating over the load of the pedalling test; under 1 the balls may dent the raceways. For information.",
        "static rating over load, statics of spindle and cranks", "nothing_here", OTHER, "1", (0.0, 1000.0),
        source="ISO 76; statics",
    ),
    Fact(
        "bearing.misalignment", "option", "number", "misalignment of the pressed bearing",
        "Angle between the bearing's axis and the line through both seat centres: that of the seat, plus the rocking "
        "of a part held at one end of a tapered bore.", "angle of the seat plus the angle the part can swing",
        "rare_tool", "measure offset and angle of the two bores with an alignment bar", "arcmin", (0.0, 6000.0),
        source="small-angle geometry",
    ),
)  # fmt: skip
