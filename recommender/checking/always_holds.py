"""A condition, or a part of one, that always holds.

Avoid: `{fact: bore.ovality, at_least: 0 um}`
Prefer: leave the part out, or write the limit that was meant.
Why: a part that always holds decides nothing, and a rule that always holds speaks on every frame.
"""

from collections.abc import Iterator

from recommender.checking.looked import Looked
from recommender.checking.regions import constant_nodes
from recommender.ground.flaw import Flaw

ID, LEVEL, NEEDS_WHOLE = "always-holds", "error", False


def flaws(looked: Looked) -> Iterator[Flaw]:
    """Yield a flaw for every innermost part of a condition that always holds once its facts are known."""
    for rule in looked.book.rules:
        for node in constant_nodes(rule.condition, looked.book, "holds"):
            message = f"whatever is measured, this part of {rule.id} holds"
            yield looked.flaw(ID, node.place, message, "Leave it out, or write the limit that was meant.")
