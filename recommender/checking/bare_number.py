"""A number written in a rule instead of a limit.

Avoid: `{fact: bore.ovality, above: 25 um}`
Prefer: a limit under `limits:` with meaning, safe side and source, and `{fact: bore.ovality, above: form.ovality_gate}`
Why: a number in a rule has no source and no safe side; nobody can argue about it, and a shop cannot tighten it.
The counts 0 and 1 are left alone: they say whether there is any at all.
"""

from collections.abc import Iterator

from recommender.checking.looked import Looked
from recommender.ground.flaw import Flaw
from recommender.logic.conditions import NUMBER_OPS, Leaf, leaves_of

ID, LEVEL, NEEDS_WHOLE = "bare-number", "warning", False
COUNTS = (0.0, 1.0)


def flaws(looked: Looked) -> Iterator[Flaw]:
    """Yield a flaw for every comparison with a number that has no name."""
    for rule in looked.book.rules:
        for leaf in leaves_of(rule.condition):
            if leaf.op in NUMBER_OPS and _bare(leaf):
                message = f"{leaf.fact.id} is compared with a number that has no source and no safe side"
                place = looked.below(leaf.place, leaf.op)
                yield looked.flaw(ID, place, message, "Make it a limit under `limits:` and write its id.", "warning")


def _bare(leaf: Leaf) -> bool:
    counted = leaf.fact.unit == "1"
    return any(each.limit is None and not (counted and each.value in COUNTS) for each in leaf.wanted)
