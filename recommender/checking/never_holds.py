"""A condition, or a part of one, that can never hold.

Avoid: `every: [{fact: fit.gap, above: 50 um}, {fact: fit.gap, below: 20 um}]`
Prefer: one comparison, or `some` where either is enough.
Why: a rule that can never hold protects nobody, and reads as if it did. Judged fact by fact within the range that
the catalogue gives it, so a part that is reported cannot hold whatever is measured.
"""

from collections.abc import Iterator

from recommender.checking.looked import Looked
from recommender.checking.regions import constant_nodes
from recommender.ground.flaw import Flaw

ID, LEVEL, NEEDS_WHOLE = "never-holds", "error", False


def flaws(looked: Looked) -> Iterator[Flaw]:
    """Yield a flaw for every innermost part of a condition that can never hold."""
    for rule in looked.book.rules:
        for node in constant_nodes(rule.condition, looked.book, "fails"):
            message = f"whatever is measured, this part of {rule.id} never holds"
            yield looked.flaw(ID, node.place, message, "Compare its limits with each other and with the fact's range.")
