"""A limit that nothing reads.

Avoid: a limit no rule compares with, no grid or fit class names and no formula reads
Prefer: take it out, or write the rule it was meant for.
Why: who edits it believes that something changes.
"""

from collections.abc import Iterator

from recommender.checking.looked import Looked
from recommender.ground.flaw import Flaw
from recommender.rulebook.required import BEHIND, LIMITS

ID, LEVEL, NEEDS_WHOLE = "unused-limit", "warning", True


def flaws(looked: Looked) -> Iterator[Flaw]:
    """Yield a flaw for every limit that neither a rule, a grid, a fit class nor a formula reads."""
    book = looked.book
    used = {*LIMITS, *(name for names in BEHIND.values() for name in names)}
    used |= {name for grid in book.grids.values() for name in grid.limits}
    used |= {name for rule in book.rules for name in rule.limits}
    used |= {name for each in book.fit_classes.values() for name in each.limits.values()}
    for limit in book.limits.values():
        if limit.id not in used:
            message = f"nothing reads the limit {limit.id}"
            yield looked.flaw(ID, limit.place, message, "Take it out, or compare a fact with it in a rule.", "warning")
