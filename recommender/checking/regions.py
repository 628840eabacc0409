"""What a condition can come to: every combination of the regions its facts may lie in.

Facts are taken one by one, so whatever is proved here holds for any facts: a condition said never to hold cannot.
"""

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise, product
from math import prod
from typing import NamedTuple, TypeAlias

from recommender.facts.fact import Fact
from recommender.facts.value import FactValue, word
from recommender.logic.conditions import Condition, Group, Leaf, leaves_of
from recommender.logic.evaluate import COMBINE, evaluate
from recommender.logic.outcome import Outcome
from recommender.rulebook.book import Rulebook
from recommender.rulebook.vocabulary import words_of

MOST_COMBINATIONS = 20_000
Outcomes: TypeAlias = dict[int, Outcome]


class State(NamedTuple):
    """One region a fact may lie in, or nothing known of it: what each leaf about the fact comes to there."""

    known: bool
    outcomes: tuple[Outcome, ...]


class Come(NamedTuple):
    """One combination: whether all facts are known in it, and what each condition comes to."""

    known: bool
    outcomes: tuple[Outcome, ...]


def combinations(conditions: Sequence[Condition], book: Rulebook) -> Iterator[Come]:
    """Yield every combination the facts of some conditions may be in; nothing when there are too many to look at."""
    leaves = [leaf for condition in conditions for leaf in leaves_of(condition)]
    facts = {leaf.fact.id: leaf.fact for leaf in leaves}
    about = {name: [leaf for leaf in leaves if leaf.fact.id == name] for name in facts}
    states = {name: sorted(set(_states(facts[name], about[name], book))) for name in facts}
    if prod(map(len, states.values())) > MOST_COMBINATIONS:
        return
    for chosen in product(*states.values()):
        outcomes: Outcomes = {}
        for name, state in zip(facts, chosen, strict=True):
            outcomes |= {id(leaf): outcome for leaf, outcome in zip(about[name], state.outcomes, strict=True)}
        yield Come(all(state.known for state in chosen), tuple(_fold(each, outcomes) for each in conditions))


def nodes_of(condition: Condition) -> Iterator[Condition]:
    """Yield every leaf and group of a condition, the inner ones before those around them."""
    if isinstance(condition, Group):
        for part in condition.parts:
            yield from nodes_of(part)
    yield condition


def turned_leaves(condition: Condition, turned: bool = False) -> Iterator[tuple[Leaf, bool]]:
    """Yield every leaf, and whether the condition holds less readily when the leaf does (an odd count of `none_of`)."""
    if isinstance(condition, Leaf):
        yield condition, turned
        return
    for part in condition.parts:
        yield from turned_leaves(part, turned != (condition.kind == "none_of"))


def constant_nodes(condition: Condition, book: Rulebook, outcome: Outcome) -> Iterator[Condition]:
    """Yield the innermost parts of a condition that always come to `outcome` once all their facts are known.

    Nothing less may come of a fact that is unknown: `{fact: x, known: true}` is no such part.
    """
    found: list[Condition] = []
    for node in nodes_of(condition):
        inside = isinstance(node, Group) and any(each in found for part in node.parts for each in nodes_of(part))
        if not inside and always(node, book, outcome):
            found.append(node)
            yield node


def numbers_at(values: Iterable[float], span: tuple[float, float] | None) -> list[float]:
    """Return every given number, one between each two neighbours, and one beyond each end, all within a span."""
    cuts = sorted({*values, *(span or ())})
    between = [(low + high) / 2 for low, high in pairwise(cuts)]
    beyond = [] if span or not cuts else [cuts[0] - 1, cuts[-1] + 1]
    return sorted(each for each in (*cuts, *between, *beyond) if span is None or span[0] <= each <= span[1])


def always(node: Condition, book: Rulebook, outcome: Outcome) -> bool:
    """Return whether a condition always comes to `outcome` once its facts are known, and never to its opposite."""
    seen = [(come.known, come.outcomes[0]) for come in combinations((node,), book)]
    opposite = "fails" if outcome == "holds" else "holds"
    known = {each for all_known, each in seen if all_known}
    return known == {outcome} and all(each != opposite for _, each in seen)


def _states(fact: Fact, leaves: list[Leaf], book: Rulebook) -> Iterator[State]:
    yield State(False, tuple(evaluate(leaf, {}).outcome for leaf in leaves))
    for value in _values(fact, leaves, book):
        yield State(True, tuple(evaluate(leaf, {fact.id: value}).outcome for leaf in leaves))


def _values(fact: Fact, leaves: list[Leaf], book: Rulebook) -> Iterator[FactValue]:
    if fact.kind == "number":
        named = (float(each.value) for leaf in leaves if leaf.op != "known" for each in leaf.wanted)
        yield from (FactValue(fact.id, each, each, each) for each in numbers_at(named, fact.span))
    elif fact.kind == "flag":
        yield from (word(fact.id, each) for each in (True, False))
    else:
        # Another grid of a house may answer in words that nothing asks, and no longer in those that are asked.
        asked = (str(each.value) for leaf in leaves if fact.by_grid and leaf.op != "known" for each in leaf.wanted)
        yield from (word(fact.id, each) for each in dict.fromkeys((*words_of(fact, book), *asked)))


def _fold(condition: Condition, outcomes: Outcomes) -> Outcome:
    if isinstance(condition, Leaf):
        return outcomes[id(condition)]
    return COMBINE[condition.kind](_fold(part, outcomes) for part in condition.parts)
