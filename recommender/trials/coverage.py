"""Whether every comparison in every rule was seen to hold, to fail, and close to its limit, and what would show it."""

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import Literal, NamedTuple

from recommender.deciding.decide import decide
from recommender.deciding.runs import every_run
from recommender.deriving.derived import Derived
from recommender.facts.fact import Fact
from recommender.facts.value import FactValue, word
from recommender.ground.quantity import show
from recommender.logic.conditions import NUMBER_OPS, Leaf, leaves_of
from recommender.logic.evaluate import Check, checks_of, evaluate
from recommender.logic.near import closeness
from recommender.rulebook.book import Rulebook
from recommender.rulebook.vocabulary import words_of

Seen = Literal["holds", "fails", "close"]
WANTED: tuple[Seen, ...] = ("holds", "fails", "close")
EXACT = 1e-9


class Missing(NamedTuple):
    """Something no example and no case shows, with a value of the fact that would; empty where there is none."""

    seen: Seen
    value: str


class LeafCover(NamedTuple):
    """One comparison of a rule: how often it was seen to hold, to fail and close to its limit, and what is missing."""

    rule: str
    leaf: Leaf
    counts: Counter[Seen]
    missing: tuple[Missing, ...]


def coverage(book: Rulebook, cases: Iterable[Derived] = ()) -> tuple[LeafCover, ...]:
    """Return the coverage of every comparison in the book by the examples of the rules and by cases."""
    counts: dict[tuple[str, int], Counter[Seen]] = {}
    for rule, checks in (*_examples(book), *_cases(book, cases)):
        for index, check in enumerate(checks):
            counts.setdefault((rule, index), Counter()).update(seen_in(check))
    return tuple(
        LeafCover(rule.id, leaf, found, tuple(_missing(leaf, found, book)))
        for rule in book.rules
        for index, leaf in enumerate(leaves_of(rule.condition))
        for found in [counts.get((rule.id, index), Counter())]
    )


def seen_in(check: Check) -> Iterator[Seen]:
    """Yield what a check shows of its comparison; close is within its own half-spread, or 2 um or 5 %, of a limit."""
    if check.outcome != "undecided":
        yield check.outcome
    value = check.found.value
    if value is None or check.leaf.op not in NUMBER_OPS:
        return
    half = ((check.found.high or value) - (check.found.low or value)) / 2
    limits = [float(each.value) for each in check.leaf.wanted]
    if any(abs(value - limit) <= max(half, closeness(check.leaf.fact, limit)) + EXACT for limit in limits):
        yield "close"


def _examples(book: Rulebook) -> Iterator[tuple[str, tuple[Check, ...]]]:
    for rule in book.rules:
        for example in rule.examples:
            yield rule.id, tuple(checks_of(evaluate(rule.condition, example.facts)))


def _cases(book: Rulebook, cases: Iterable[Derived]) -> Iterator[tuple[str, tuple[Check, ...]]]:
    for derived in cases:
        for run in every_run(decide(derived, book).runs):
            yield run.rule.id, tuple(checks_of(run.result))


def _missing(leaf: Leaf, found: Counter[Seen], book: Rulebook) -> Iterator[Missing]:
    for wanted in WANTED:
        if not found[wanted] and (wanted != "close" or leaf.op in NUMBER_OPS):
            yield Missing(wanted, next(_values(leaf, wanted, book), ""))


def _values(leaf: Leaf, wanted: Seen, book: Rulebook) -> Iterator[str]:
    """Yield values of a fact, as people write them, that would show what is missing."""
    for shown, value in _candidates(leaf, book):
        outcome = evaluate(leaf, {leaf.fact.id: value} if value.known else {}).outcome
        if wanted in (outcome, "close"):
            yield shown


def _candidates(leaf: Leaf, book: Rulebook) -> Iterator[tuple[str, FactValue]]:
    fact = leaf.fact
    if leaf.op == "known":
        yield "nothing known of it", FactValue(fact.id)
    if leaf.op in NUMBER_OPS:
        for limit in (float(each.value) for each in leaf.wanted):
            yield from (_number(fact, limit + step * closeness(fact, limit)) for step in (-1, 1, 0))
    elif fact.kind == "flag":
        yield from ((("yes" if each else "no"), word(fact.id, each)) for each in (True, False))
    elif fact.kind == "number":
        yield _number(fact, sum(fact.span or (0.0, 2.0)) / 2)
    else:
        yield from ((each, word(fact.id, each)) for each in words_of(fact, book))


def _number(fact: Fact, value: float) -> tuple[str, FactValue]:
    return show(value, fact.unit), FactValue(fact.id, value, value, value)
