"""Whether the bore is proved to meet the standard's published limits: an answer beside the fit, never part of it."""

import numpy as np

from recommender.deriving.collector import Collector
from recommender.metrology.conformity import conformity_between
from recommender.metrology.draws import Draws
from recommender.rulebook.book import Standard

# One-sided 95 % of the normal distribution: by so much a size has to clear a limit to be proved.
GUARD = 1.645
SIZES = ("size", "local", "envelope")
OTHERS = {"form": "bore.ovality", "taper": "bore.taper", "coaxiality": "frame.standard"}
FACTS = (
    *(f"conformity.{each}" for each in (*SIZES, *OTHERS)), *(f"conformity.{each}_probability" for each in SIZES),
    "conformity.guard_band",
)
NUMBERS = ("_probability", "guard_band")


def conformity_facts(draws: Draws | None, standard: Standard | None, doubted: bool, made: Collector) -> None:
    """Derive conformity of size, local sizes, envelope, form, taper and coaxiality against the standard's limits.

    Nothing is judged against a standard that is itself in doubt. No standard in the book publishes a limit of form,
    taper or coaxiality of the bores.
    """
    answer = "not_judged" if doubted else "no_published_limit" if _threaded(standard) else None
    if answer is not None:
        _without_numbers(answer, made)
        return
    if standard is None or standard.bore is None or draws is None:
        for fact in FACTS:
            made.unknown(fact, "the bore was not read, or the shell standard is not known")
        return
    _judged(draws, standard.bore.lower, standard.bore.upper, made)


def _judged(draws: Draws, lower: float | None, upper: float | None, made: Collector) -> None:
    ends = {
        "size": (draws.mean, draws.mean, "bore.mean_diameter"),
        "local": (draws.smallest_local, draws.largest_local, "bore.ovality"),
        "envelope": (draws.inscribed, draws.largest_local, "bore.inscribed_diameter"),
    }
    for name, (smallest, largest, fact) in ends.items():
        found = conformity_between(smallest, largest, draws.weights, lower, upper)
        inputs = ("bore.mean_diameter", fact, "frame.standard")
        made.word(f"conformity.{name}", found.answer, *dict.fromkeys(inputs))
        if found.probability is None:
            made.unknown(f"conformity.{name}_probability", "the standard publishes no limit", "frame.standard")
        else:
            made.exact(f"conformity.{name}_probability", found.probability, *dict.fromkeys(inputs))
    for name, fact in OTHERS.items():
        made.word(f"conformity.{name}", "no_published_limit", *dict.fromkeys((fact, "frame.standard")))
    middle = float(draws.weights @ draws.mean)
    u = float(np.sqrt(draws.weights @ (draws.mean - middle) ** 2))
    made.exact("conformity.guard_band", GUARD * u * 1000, "bore.mean_diameter")


def _without_numbers(answer: str, made: Collector) -> None:
    for fact in FACTS:
        if fact.endswith(NUMBERS):
            made.unknown(fact, "nothing is judged against this standard", "frame.standard_agrees")
        else:
            made.word(fact, answer, "frame.standard_agrees")


def _threaded(standard: Standard | None) -> bool:
    """Return whether a shell is threaded; thread limits are no limits of a bore, and this book holds none."""
    return standard is not None and standard.kind == "threaded"
