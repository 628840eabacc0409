"""A comparison that no example of its rule tests both ways.

Avoid: two comparisons in a rule and examples that only move the first one
Prefer: for each comparison one example in which it holds and one in which it fails.
Why: a comparison nobody tested may be the wrong way round.
"""

from collections.abc import Iterator

from recommender.checking.looked import Looked
from recommender.checking.regions import always
from recommender.ground.flaw import Flaw
from recommender.logic.conditions import Leaf
from recommender.logic.evaluate import checks_of, evaluate
from recommender.logic.outcome import Outcome, opposite
from recommender.rulebook.book import Rule

ID, LEVEL, NEEDS_WHOLE = "untested-leaf", "warning", False
WANTED: tuple[Outcome, ...] = ("holds", "fails")


def flaws(looked: Looked) -> Iterator[Flaw]:
    """Yield a flaw for every comparison that holds in no example of its rule, or fails in none."""
    moved = {each.id for each in looked.book.limits.values() if each.layer == "house"}
    for rule in looked.book.rules:
        if rule.layer == "shipped" and moved & set(rule.limits):
            continue
        for leaf, seen in outcomes_seen(rule):
            missing = [each for each in WANTED if each not in seen]
            if missing and not always(leaf, looked.book, opposite(missing[0])):
                message = f"in no example of {rule.id} this comparison of {leaf.fact.id} {' or '.join(missing)}"
                advice = f"Add an example in which it {missing[0]}."
                yield looked.flaw(ID, leaf.place, message, advice, "warning")


def outcomes_seen(rule: Rule) -> list[tuple[Leaf, set[Outcome]]]:
    """Return what each comparison of a rule comes to over its examples."""
    runs = [tuple(checks_of(evaluate(rule.condition, each.facts))) for each in rule.examples]
    return [(checks[0].leaf, {check.outcome for check in checks}) for checks in zip(*runs, strict=True)]
