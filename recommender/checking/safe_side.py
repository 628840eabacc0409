"""A limit whose safe side contradicts the comparison it stands in.

Avoid: `safe_side: lower` for a limit that a bar compares with `below`
Prefer: `safe_side: higher` there; raising the limit makes the bar hold more often.
Why: whether a shop's change is stricter or milder is read off the safe side. If it is wrong, a milder change passes
as a stricter one. A fact that one rule holds between two limits is judged by the check `rules.worse-is-milder`.
"""

from collections.abc import Iterator
from typing import NamedTuple

from recommender.checking.looked import Looked
from recommender.checking.regions import turned_leaves
from recommender.ground.flaw import Flaw
from recommender.logic.conditions import Leaf
from recommender.rulebook.book import Rule, Rulebook, SafeSide

ID, LEVEL, NEEDS_WHOLE = "safe-side", "error", False
RISING: dict[str, tuple[SafeSide, ...]] = {
    "above": ("lower",), "at_least": ("lower",), "below": ("higher",), "at_most": ("higher",),
    "between": ("lower", "higher"),
}  # fmt: skip
TURNED: dict[SafeSide, SafeSide] = {"lower": "higher", "higher": "lower"}


class Compared(NamedTuple):
    """A limit a rule compares with, and the safe side that suits the comparison."""

    leaf: Leaf
    limit: str
    suits: SafeSide


def flaws(looked: Looked) -> Iterator[Flaw]:
    """Yield a flaw for every comparison in a bar that moving its limit to the safe side would make milder."""
    for rule in looked.book.rules:
        for leaf, limit, suits in contradicting(rule, looked.book):
            message = f"moving {limit} to its safe side would make {rule.id} hold less often"
            advice = f"Its safe side is {suits} here; correct `safe_side`, or the comparison."
            yield looked.flaw(ID, looked.below(leaf.place, leaf.op), message, advice)


def contradicting(rule: Rule, book: Rulebook) -> Iterator[Compared]:
    """Yield every limit whose safe side no comparison of its fact in a rule suits; a fact held in a band is let be."""
    if rule.about.kind == "cause" or rule.stance == "supports":
        return
    found = list(_compared(rule))
    for fact in rule.facts:
        of_fact = [each for each in found if each.leaf.fact.id == fact]
        if all(book.limits[each.limit].safe_side != each.suits for each in of_fact):
            yield from of_fact


def _compared(rule: Rule) -> Iterator[Compared]:
    for leaf, turned in turned_leaves(rule.condition):
        for operand, side in zip(leaf.wanted, RISING.get(leaf.op, ()), strict=False):
            if operand.limit is not None:
                yield Compared(leaf, operand.limit, TURNED[side] if turned else side)
