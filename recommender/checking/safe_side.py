"""A limit whose safe side contradicts the comparison it stands in.

Avoid: `safe_side: lower` for a limit that a bar compares with `below`
Prefer: `safe_side: higher` there; raising the limit makes the bar hold more often.
Why: whether a shop's change is stricter or milder is read off the safe side. If it is wrong, a milder change passes
as a stricter one.
"""

from collections.abc import Iterator

from recommender.checking.looked import Looked
from recommender.checking.regions import turned_leaves
from recommender.ground.flaw import Flaw
from recommender.logic.conditions import Leaf
from recommender.rulebook.book import Rule, SafeSide

ID, LEVEL, NEEDS_WHOLE = "safe-side", "error", False
RISING = {"above": ("lower",), "at_least": ("lower",), "below": ("higher",), "at_most": ("higher",),
          "between": ("lower", "higher")}  # fmt: skip
TURNED: dict[str, SafeSide] = {"lower": "higher", "higher": "lower"}


def flaws(looked: Looked) -> Iterator[Flaw]:
    """Yield a flaw for every comparison in a bar that moving its limit to the safe side would make milder."""
    for rule in looked.book.rules:
        if rule.about.kind == "cause" or rule.stance == "supports":
            continue
        for leaf, turned in turned_leaves(rule.condition):
            yield from _of_leaf(looked, rule, leaf, turned)


def _of_leaf(looked: Looked, rule: Rule, leaf: Leaf, turned: bool) -> Iterator[Flaw]:
    for operand, side in zip(leaf.wanted, RISING.get(leaf.op, ()), strict=False):
        wanted = TURNED[side] if turned else side
        if operand.limit is not None and looked.book.limits[operand.limit].safe_side != wanted:
            message = f"moving {operand.limit} to its safe side would make {rule.id} hold less often"
            advice = f"Its safe side is {wanted} here; correct `safe_side`, or the comparison."
            yield looked.flaw(ID, looked.below(leaf.place, leaf.op), message, advice)

