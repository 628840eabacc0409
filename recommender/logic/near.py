"""How close to a limit a value has to be to test it."""

from recommender.facts.fact import Fact
from recommender.ground.quantity import UNITS, convert

CLOSE_LENGTH_UM = 2.0
CLOSE_SHARE = 0.05


def closeness(fact: Fact, limit: float) -> float:
    """Return the distance, in the unit of the fact, within which a value counts as close to a limit.

    2 um for a length, else 5 % of the limit but not less than one step as shown; one for a whole number without unit.
    """
    if UNITS[fact.unit].kind == "length":
        return convert(CLOSE_LENGTH_UM, "um", fact.unit)
    if fact.unit == "1" and limit == round(limit):
        return 1.0
    return max(CLOSE_SHARE * abs(limit), 10.0 ** -UNITS[fact.unit].decimals)
