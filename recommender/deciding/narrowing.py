"""What would settle a number that is known, but not closely enough to tell on which side of a limit it lies."""

from collections.abc import Mapping

from recommender.deciding.because import limits_shown, shown_fact
from recommender.facts.value import FactValue
from recommender.ground.quantity import show
from recommender.logic.evaluate import Check
from recommender.logic.margins import ROOM
from recommender.rulebook.book import Limit

BORES = ("bore.inscribed_diameter", "bore.mean_diameter", "bore.widest_diameter")
PART = "part.od"
PARTS_OF_CASE = "case:parts."
UM_PER_MM = 1000
# Under a tenth of the present spread no reading at a bench gets.
OUT_OF_REACH = 0.1
READ_AGAIN = (
    "read each row of the bore more often, with a finer instrument, or with one checked on a setting ring before "
    "and after"
)
MEASURE_PART = "measure the part more finely"


def straddles(check: Check) -> bool:
    """Return whether a check is open only because a known number reaches past its limit on both sides."""
    found = check.found
    known = found.value is not None and check.margin is not None
    return check.outcome == "undecided" and known and found.low != found.high


def narrow(check: Check, facts: Mapping[str, FactValue], limits: Mapping[str, Limit]) -> str:
    """Return how to settle a number that straddles its limit: its spread, the spread that would do, and the ways.

    Both as shown, at 95 %; the spread that decides is as many times larger afterwards as it is now.

    The spread that would do is the distance of the median to the limit; finer readings may move the median as well.
    """
    fact, needed = check.leaf.fact, abs(check.margin or 0.0)
    now = half_width(check.found)
    sure = now + beyond(check.found)
    lead = (
        f"Narrow the {fact.name}: {shown_fact(check.found, fact)} is known to +-{show(now, fact.unit)} "
        f"and not clear of {limits_shown(check, limits)}"
    )
    if needed < OUT_OF_REACH * sure:
        return f"{lead}, from which it lies too near for a finer reading; another part may lie clear of it"
    enough = f"a spread under +-{show(needed * now / sure, fact.unit)} would settle it if the middle stays"
    return f"{lead}; {enough}. {_ways(check, facts)}"


def half_width(found: FactValue) -> float:
    """Return half the 95 % interval of a number, in its unit; 0 for one without an interval."""
    return 0.0 if found.low is None or found.high is None else (found.high - found.low) / 2


def beyond(found: FactValue) -> float:
    """Return how far past the ends shown a limit must lie for a number to be clear of it, in its unit."""
    return found.beyond + ROOM * found.sampling


def _ways(check: Check, facts: Mapping[str, FactValue]) -> str:
    """Return what brings a spread down: the bore read better, the part measured better, or what the catalogue says."""
    rests = _rests_on(check.leaf.fact.id, facts)
    bore = any(each.startswith("bore.") for each in rests)
    part = any(each == PART or each.startswith(PARTS_OF_CASE) for each in rests)
    ways = [
        f"{how}{_known_to(fact, facts) if fact in rests else ''}"
        for wanted, fact, how in ((bore, _bore_among(rests), READ_AGAIN), (part, PART, MEASURE_PART))
        if wanted
    ]
    told = "; or ".join(ways) or check.leaf.fact.settle
    return f"{told[:1].upper()}{told[1:]}"


def _bore_among(rests: set[str]) -> str:
    return next((each for each in BORES if each in rests), BORES[0])


def _known_to(fact: str, facts: Mapping[str, FactValue]) -> str:
    """Return how closely a diameter in mm is known, in um: ` (now +-5.5 um)`."""
    if fact not in facts or facts[fact].value is None:
        return ""
    return f" (now +-{show(half_width(facts[fact]) * UM_PER_MM, 'um')})"


def _rests_on(start: str, facts: Mapping[str, FactValue]) -> set[str]:
    """Return everything a fact was made from, by way of others: facts, limits, places in the case."""
    found: set[str] = set()
    waiting = [start]
    while waiting:
        name = waiting.pop()
        if name not in found:
            found.add(name)
            waiting.extend(facts[name].inputs if name in facts else ())
    return found
