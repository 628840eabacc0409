"""Rating and life of the bearing that goes with a part: information, no rule rests on it."""

from recommender.bench.case import Case
from recommender.deriving.alignment import seat_span
from recommender.deriving.collector import Collector
from recommender.deriving.grip import LIMITS, load_per_newton
from recommender.mechanics.rating import dynamic_rating, life_hours, static_rating, static_safety
from recommender.rulebook.book import Part, Rulebook

RATINGS = ("bearing.dynamic_rating", "bearing.static_rating", "bearing.life", "bearing.static_reserve")
LOAD, TURNS, TEST = "riding.mean_load", "riding.cadence", "pedalling.test_force"


def rating_facts(part: Part, case: Case, book: Rulebook, made: Collector) -> None:
    """Derive both ratings, the life at a mean load of riding, and the reserve at the load of the pedalling test."""
    balls, source = book.bearings[part.bearing].balls, f"part:{part.id}"
    if balls is None:
        for fact in RATINGS:
            made.unknown(fact, f"the balls of a {part.bearing} are not known", source)
        return
    dynamic = float(dynamic_rating(balls.bm, balls.fc, balls.count, balls.diameter))
    static = float(static_rating(balls.f0, balls.count, balls.diameter))
    load, turns, test = (book.limits[each].value for each in (LOAD, TURNS, TEST))
    made.exact("bearing.dynamic_rating", dynamic, source)
    made.exact("bearing.static_rating", static, source)
    made.exact("bearing.life", float(life_hours(dynamic, load, turns)), RATINGS[0], f"limit:{LOAD}", f"limit:{TURNS}")
    span = seat_span(case)
    if span is None:
        made.unknown("bearing.static_reserve", "shell width or seat depth is missing", RATINGS[1])
        return
    reserve = float(static_safety(static, test * load_per_newton(span, book)))
    made.exact("bearing.static_reserve", reserve, RATINGS[1], *(f"limit:{each}" for each in (TEST, *LIMITS)))
