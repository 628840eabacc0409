"""Facts about conformity with the published standard: read by the warranty desk, asked by no rule."""

from recommender.facts.fact import Fact

GRID = "two-point readings at 0, 60 and 120 degrees and three-point readings at 0, 40 and 80 degrees, at two depths"
ANSWERS = ("proved_conforming", "proved_not_conforming", "not_proved", "no_published_limit", "not_judged")
TEST = "conformance probability of 95 % or more, or of 5 % or less"
RULE = "ISO 14253-1:2017 default decision rule; probability after JCGM 106"


def _answer(name: str, shown: str, meaning: str, made_by: str = TEST, source: str = RULE) -> Fact:
    return Fact(f"conformity.{name}", "side", "word", f"conformity of {shown}", meaning, made_by, "reading", GRID,
                words=ANSWERS, source=source, conformity=True)


def _probability(name: str, shown: str) -> Fact:
    meaning = f"Probability that the bore meets the published limits of {shown}, both limits at once."
    return Fact(f"conformity.{name}_probability", "side", "number", f"probability that {shown} conforms", meaning,
                "share of the draws inside the limits", "reading", GRID, "1", (0.0, 1.0), source="JCGM 106",
                conformity=True)


FACTS: tuple[Fact, ...] = (
    _answer("size", "size", "Whether the mean size is proved inside the published limits."),
    _answer("local", "local size", "Whether every two-point diameter is proved inside the published limits.",
            source=f"local size of ISO 14405-1; {RULE}"),
    _answer("envelope", "the envelope",
            "Whether the inscribed diameter is proved above the lower limit and every local size below the upper one.",
            source=f"ISO 14405-1 envelope requirement; {RULE}"),
    _answer("form", "form", "Whether the out-of-round is proved within a published form limit."),
    _answer("taper", "taper", "Whether the taper is proved within a published limit of taper or cylindricity."),
    _answer("coaxiality", "coaxiality", "Whether the two bores are proved in line within a published limit."),
    _probability("size", "size"),
    _probability("local", "local size"),
    _probability("envelope", "the envelope"),
    Fact("conformity.guard_band", "side", "number", "guard band", "By how much the mean size has to clear a limit to be"
         " proved inside it at 95 %.", "1.645 standard uncertainties of the mean diameter", "reading", GRID, "um",
         (0.0, 2000.0), source=RULE, conformity=True),
)
