"""Whether the bore is proved to meet the standard's published limits: an answer beside the fit, never part of it."""

from recommender.deriving.collector import Collector
from recommender.metrology.conformity import conformity
from recommender.metrology.draws import Draws
from recommender.rulebook.book import Standard

FACTS = ("conformity.size", "conformity.envelope", "conformity.form")


def conformity_facts(draws: Draws | None, standard: Standard | None, doubted: bool, made: Collector) -> None:
    """Derive conformity of size, envelope and form; nothing is judged against a standard that is itself in doubt."""
    answer = "not_judged" if doubted else "no_published_limit" if _threaded(standard) else None
    if answer is not None:
        for fact in FACTS:
            made.word(fact, answer, "frame.standard_agrees")
        return
    if standard is None or standard.bore is None or draws is None:
        for fact in FACTS:
            made.unknown(fact, "the bore was not read, or the shell standard is not known")
        return
    lower, upper = standard.bore.lower, standard.bore.upper
    size = conformity(draws.mean, draws.weights, lower, upper).answer
    envelope = conformity_of_envelope(draws, lower, upper)
    made.word("conformity.size", size, "bore.mean_diameter", "frame.standard")
    made.word("conformity.envelope", envelope, "bore.inscribed_diameter", "bore.widest_diameter", "frame.standard")
    made.word("conformity.form", "no_published_limit", "bore.ovality", "frame.standard")


def conformity_of_envelope(draws: Draws, lower: float | None, upper: float | None) -> str:
    """Return the answer for the envelope: inscribed diameter above the lower, widest below the upper limit."""
    low = conformity(draws.inscribed, draws.weights, lower, None).answer
    high = conformity(draws.widest, draws.weights, None, upper).answer
    both = (low, high)
    for answer in ("proved_not_conforming", "not_proved", "no_published_limit"):
        if answer in both:
            return answer
    return "proved_conforming"


def _threaded(standard: Standard | None) -> bool:
    """Return whether a shell is threaded; thread limits are no limits of a bore, and this book holds none."""
    return standard is not None and standard.kind == "threaded"
