"""A rule hidden by another one that is at least as strict.

Avoid: an advice against more than 60 um beside a bar at more than 50 um, both about the same remedy
Prefer: one of them, or an advice that starts below the bar.
Why: whenever the hidden rule holds the other one has already decided, so nobody ever sees it at work.
"""

from collections.abc import Iterator

from recommender.checking.looked import Looked
from recommender.checking.regions import combinations
from recommender.ground.flaw import Flaw
from recommender.rulebook.book import Rule, Rulebook

ID, LEVEL, NEEDS_WHOLE = "hidden-rule", "warning", False
STRICTEST_FIRST = ("stops_work", "rules_out", "asks_first", "advises_against")
OPEN = ("holds", "undecided")


def flaws(looked: Looked) -> Iterator[Flaw]:
    """Yield a flaw for every rule that only speaks where a stricter or equal one about the same subject does."""
    rules = [each for each in looked.book.rules if each.stance in STRICTEST_FIRST and each.about.kind != "cause"]
    for rule in rules:
        over = next((each for each in rules if _may_hide(each, rule) and _hides(each, rule, looked.book)), None)
        if over is not None:
            message = f"whenever {rule.id} holds, {over.id} holds too and is as strict"
            advice = f"Take it out, or let it begin before the rule at {over.place} does."
            yield looked.flaw(ID, looked.id_of(rule), message, advice, "warning")


def _may_hide(over: Rule, rule: Rule) -> bool:
    same = over.about.kind == rule.about.kind and set(rule.about.names) <= set(over.about.names)
    # A house may be stricter than the shipped rules: that is what it is for.
    if (over.layer, rule.layer) == ("house", "shipped"):
        return False
    if over is rule or rule.sealed or not same or not set(over.facts) <= set(rule.facts):
        return False
    return _rank(over) < _rank(rule) or (_rank(over) == _rank(rule) and (over.sealed or over.id < rule.id))


def _rank(rule: Rule) -> int:
    return STRICTEST_FIRST.index(rule.stance)


def _hides(over: Rule, rule: Rule, book: Rulebook) -> bool:
    seen = [come.outcomes for come in combinations((over.condition, rule.condition), book)]
    return bool(seen) and all(
        (mine != "holds" or other == "holds") and (mine == "fails" or other in OPEN) for other, mine in seen
    )
