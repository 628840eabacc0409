"""Facts about one bore at 20 C: size, form, seat and state."""

from recommender.facts.fact import Fact

MODEL = "weighted linear model of the readings with priors for what was not seen (mean, taper, two and three lobes)"
CLOSED = "inscribed circle of a section with two and three lobes, closed form; least over the seat"
GRID = "two-point readings at 0, 60 and 120 degrees and three-point readings at 0, 40 and 80 degrees, at two depths"
TWO_POINT = "two-point readings at 0, 60 and 120 degrees (not only at right angles), at two depths"
SIZE = (30.0, 60.0)
FORM = (0.0, 2000.0)

FACTS: tuple[Fact, ...] = (
    Fact("bore.mean_diameter", "side", "number", "mean bore diameter", "Mean diameter over the seat, at 20 C.",
         MODEL, "reading", GRID, "mm", SIZE, source="weighted least squares; ISO 1 for 20 C"),
    Fact("bore.inscribed_diameter", "side", "number", "tightest (inscribed) bore diameter",
         "Diameter of the largest cylinder that would enter the seat, at 20 C.", CLOSED, "reading", GRID, "mm", SIZE,
         source="trigonometric moment bound, derived; checked against linear programming"),
    Fact("bore.widest_diameter", "side", "number", "widest bore diameter",
         "Diameter of the smallest cylinder around the seat's wall, at 20 C.", CLOSED, "reading", GRID, "mm", SIZE,
         source="trigonometric moment bound, derived"),
    Fact("bore.mouth_diameter", "side", "number", "bore diameter at the face",
         "Mean diameter of the section at the shell face, at 20 C.", MODEL, "reading", GRID, "mm", SIZE),
    Fact("bore.inner_diameter", "side", "number", "bore diameter at the inner end",
         "Mean diameter of the section at the inner end of the seat, at 20 C.", MODEL, "reading", GRID, "mm", SIZE),
    Fact("bore.ovality", "side", "number", "out-of-round (oval)",
         "Largest minus smallest two-point diameter in a section.", MODEL, "reading", TWO_POINT, "um", FORM),
    Fact("bore.lobing", "side", "number", "three-lobed form",
         "Largest minus smallest three-point reading over a full turn in a section.", MODEL, "reading",
         "three-point readings at 0, 40 and 80 degrees", "um", FORM),
    Fact("bore.taper", "side", "number", "taper over the seat",
         "Mean diameter at the face minus that at the inner end, without sign.", MODEL, "reading",
         "the same readings at a second depth, as far apart as the seat allows", "um", FORM),
    Fact("bore.off_nominal", "side", "number", "distance of the bore from the standard's size",
         "Mean bore diameter minus the nominal of the stated standard.", "mean diameter minus nominal", "reading",
         "check unit and instrument, and the shell standard", "mm", (-20.0, 20.0)),
    Fact("bore.over_upper_limit", "side", "number", "bore above the standard's upper limit",
         "Mean diameter minus the upper limit of the standard, or minus its nominal where no limit is published.",
         "mean diameter minus limit", "reading", GRID, "um", (-5000.0, 5000.0)),
    Fact("seat.depth", "side", "number", "depth of the seat", "Length of the seat from the face.",
         "written in the case", "reading", "measure the depth of the seat from the face", "mm", (0.0, 80.0)),
    Fact("seat.wall", "side", "number", "wall of the shell", "Thinnest wall of the shell around this bore.",
         "written in the case", "reading", "measure the wall with a tube micrometer or ultrasonically",
         "mm", (0.0, 20.0)),
    Fact("seat.port_near", "side", "flag", "opening beside the seat",
         "An opening in the shell lies within the seat or one decay length beside it.",
         "openings of the case and the decay length of a short cylinder", "inspection",
         "measure where the opening lies", source="theory of the semi-infinite cylindrical shell"),
    Fact("seat.ligament_share", "side", "number", "ligament beside the opening",
         "Material between an opening and the face of this side, as a share of the opening's size.",
         "ligament over size of the opening, the least counted", "inspection", "measure opening and ligament",
         "1", (0.0, 100.0)),
    Fact("seat.open_slot", "side", "flag", "open slot in the seat", "A slot runs through the whole seat.",
         "openings of the case", "inspection", "look at the openings of the shell"),
    Fact("bore.cleaned", "side", "word", "bore cleaned", "Whether the bore was cleaned before it was measured.",
         "written in the case", "inspection", "clean the bore with what the frame maker allows, then look again",
         words=("yes_cleaned", "not_cleaned")),
    Fact("bore.coating", "side", "word", "coating in the bore", "What coats the wall of the bore.",
         "written in the case", "inspection", "look at the bore with a lamp", words=("none", "paint", "anodised")),
    Fact("bore.cut_before", "side", "word", "earlier cutting", "Whether the bore was cut by an earlier repair.",
         "written in the case", "inspection", "look for tool marks in the bore", words=("uncut", "reamed")),
)
