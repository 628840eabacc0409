"""A limit with no example close to it on each side.

Avoid: examples at 0 um and 200 um for a limit of 25 um
Prefer: examples at 24 um and 26 um, or within 5 % of the limit.
Why: only examples close to the limit notice when the limit moves, or when `above` should have been `at_least`.
Close is 2 um for a length, 5 % of the limit otherwise, one step for a whole number.
"""

from collections.abc import Iterator

from recommender.checking.looked import Looked
from recommender.ground.flaw import Flaw
from recommender.ground.quantity import show
from recommender.logic.conditions import NUMBER_OPS, Leaf, Operand, leaves_of
from recommender.logic.near import closeness
from recommender.rulebook.book import Rule

ID, LEVEL, NEEDS_WHOLE = "near-limit", "warning", False


def flaws(looked: Looked) -> Iterator[Flaw]:
    """Yield a flaw for every limit of a comparison without an example close to it, below and above."""
    for rule in looked.book.rules:
        for leaf in leaves_of(rule.condition):
            for operand in leaf.wanted if leaf.op in NUMBER_OPS else ():
                if rule.layer == "house" or not _moved_by_house(looked, operand):
                    yield from _of_limit(looked, rule, leaf, float(operand.value))


def _moved_by_house(looked: Looked, operand: Operand) -> bool:
    return operand.limit is not None and looked.book.limits[operand.limit].layer == "house"


def _of_limit(looked: Looked, rule: Rule, leaf: Leaf, limit: float) -> Iterator[Flaw]:
    near = closeness(leaf.fact, limit)
    found = [each.facts[leaf.fact.id].value for each in rule.examples if leaf.fact.id in each.facts]
    apart = [value - limit for value in found if value is not None and abs(value - limit) <= near + 1e-9]
    for side, there in (("under", min(apart, default=1.0) <= 0), ("over", max(apart, default=-1.0) >= 0)):
        end = limit - near if side == "under" else limit + near
        possible = leaf.fact.span is None or leaf.fact.span[0] <= end <= leaf.fact.span[1]
        if possible and not there:
            message = f"no example of {rule.id} has {leaf.fact.id} just {side} {show(limit, leaf.fact.unit)}"
            low, high = (show(each, leaf.fact.unit) for each in sorted((limit, end)))
            advice = f"Add one between {low} and {high}."
            yield looked.flaw(ID, leaf.place, message, advice, "warning")
