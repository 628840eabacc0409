"""A limit with no example close to it on each side.

Avoid: examples at 0 um and 200 um for a limit of 25 um
Prefer: examples at 24 um and 26 um.
Why: only examples close to the limit notice when the limit moves, or when `above` should have been `at_least`.
Close is 2 um for a length, 5 % of the limit for other units, one step for a whole number. The same holds for the
limits that rows of a grid end at.
"""

from collections.abc import Iterable, Iterator

from recommender.checking.looked import Looked
from recommender.facts.fact import Fact
from recommender.ground.flaw import Flaw
from recommender.ground.place import Place
from recommender.ground.quantity import show
from recommender.logic.conditions import NUMBER_OPS, Leaf, Operand, leaves_of
from recommender.logic.grids import Band
from recommender.logic.near import closeness
from recommender.rulebook.book import Rule
from recommender.rulebook.grid import AnswerGrid

ID, LEVEL, NEEDS_WHOLE = "near-limit", "warning", False


def flaws(looked: Looked) -> Iterator[Flaw]:
    """Yield a flaw for every limit of a comparison or of a row without an example close to it, below and above."""
    for rule in looked.book.rules:
        for leaf in leaves_of(rule.condition):
            for operand in leaf.wanted if leaf.op in NUMBER_OPS else ():
                if rule.layer == "house" or not _moved_by_house(looked, operand):
                    yield from _of_limit(looked, rule, leaf, float(operand.value))


    for grid in looked.book.grids.values() if looked.whole else ():
        yield from _of_grid(looked, grid)


def _of_grid(looked: Looked, grid: AnswerGrid) -> Iterator[Flaw]:
    told: set[tuple[str, float]] = set()
    for row, place in zip(grid.table.rows, grid.places, strict=True):
        for axis, part in zip(grid.table.axes, row.parts, strict=True):
            for end in (part.start, part.end) if isinstance(part, Band) else ():
                mark = (axis.fact.id, 0.0 if end is None else float(end.value))
                if end is not None and mark not in told and (grid.layer == "house" or not _moved_by_house(looked, end)):
                    told.add(mark)
                    values = [each.facts[axis.fact.id].value for each in grid.examples if axis.fact.id in each.facts]
                    where = looked.below(place, "at", axis.fact.id)
                    yield from _missing(looked, where, grid.id, axis.fact, float(end.value), values)


def _moved_by_house(looked: Looked, operand: Operand) -> bool:
    return operand.limit is not None and looked.book.limits[operand.limit].layer == "house"


def _of_limit(looked: Looked, rule: Rule, leaf: Leaf, limit: float) -> Iterator[Flaw]:
    found = [each.facts[leaf.fact.id].value for each in rule.examples if leaf.fact.id in each.facts]
    yield from _missing(looked, leaf.place, rule.id, leaf.fact, limit, found)


def _missing(
    looked: Looked, place: Place, name: str, fact: Fact, limit: float, found: Iterable[float | None]
) -> Iterator[Flaw]:
    near = closeness(fact, limit)
    apart = [value - limit for value in found if value is not None and abs(value - limit) <= near + 1e-9]
    for side, there in (("under", min(apart, default=1.0) <= 0), ("over", max(apart, default=-1.0) >= 0)):
        end = limit - near if side == "under" else limit + near
        possible = fact.span is None or fact.span[0] <= end <= fact.span[1]
        if possible and not there:
            message = f"no example of {name} has {fact.id} just {side} {show(limit, fact.unit)}"
            low, high = (show(each, fact.unit) for each in sorted((limit, end)))
            advice = f"Add one between {low} and {high}."
            yield looked.flaw(ID, place, message, advice, "warning")
