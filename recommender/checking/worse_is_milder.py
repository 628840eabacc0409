"""A worse input that gives a milder outcome of the same remedy.

Avoid: a bar with `between: [30 um, 50 um]`, so that 60 um is cleared again; an advice that ends before the bar begins
Prefer: bars and advices that go on to the end: `above: 30 um`.
Why: a bore that is worse must never be treated more mildly. Each number is moved through all the limits it meets in
the bars, questions and advices about one subject, everything else as in an example; what speaks for a remedy is left
aside, because it only says whether the remedy is meant for such a bore. A number whose limits bound it from both
sides has no worse direction and is not judged.
"""

from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import NamedTuple

from recommender.checking.looked import Looked
from recommender.checking.regions import numbers_at, turned_leaves
from recommender.checking.safe_side import contradicting
from recommender.deciding.contest import option_outcome
from recommender.deciding.milder import STOPS, STRICTNESS
from recommender.deciding.runs import Run
from recommender.facts.catalogue import CATALOGUE
from recommender.facts.fact import Fact
from recommender.facts.value import FactValue, word
from recommender.ground.flaw import Flaw
from recommender.ground.place import whole_file
from recommender.ground.quantity import show
from recommender.logic.conditions import NUMBER_OPS, Leaf, Operand, leaves_of
from recommender.rulebook.book import Limit, Rule, Rulebook, Source, Subject

ID, LEVEL, NEEDS_WHOLE = "worse-is-milder", "error", False
ALWAYS = CATALOGUE["part.suits_shell"]
HERE = whole_file("")


class Step(NamedTuple):
    """One number tried, how strict everything about the subject is there, and the rules that speak there."""

    value: float
    strictness: int
    rules: tuple[Rule, ...]


def flaws(looked: Looked) -> Iterator[Flaw]:
    """Yield a flaw, at the rule that stops speaking, for every number that grows worse while the outcome is milder."""
    told: set[tuple[str, str]] = set()
    contradicted = {each.leaf.fact.id for rule in looked.book.rules for each in contradicting(rule, looked.book)}
    for name, rules in subjects(looked.book).items():
        for fact in _numbers_of(rules):
            asking = [rule for rule in rules if fact.id in rule.facts]
            turn = worse_side(fact, asking, looked.book)
            if turn is None or fact.id in contradicted or _all_speak_to_the_end(fact, asking, turn):
                continue
            for before, after in _turns(fact, asking, turn):
                silent = next(each for each in before.rules if each not in after.rules)
                if (silent.id, fact.id) not in told:
                    told.add((silent.id, fact.id))
                    yield _flaw(looked, name, fact, silent, before, after)


def subjects(book: Rulebook) -> Mapping[str, list[Rule]]:
    """Return the rules that speak against each remedy, a side or the frame, by what they are about."""
    found: dict[str, list[Rule]] = {}
    for rule in book.rules:
        if rule.stance != "supports" and rule.about.kind != "cause":
            for name in rule.about.names or (rule.about.kind,):
                found.setdefault(name, []).append(rule)
    return found


def worse_side(fact: Fact, rules: list[Rule], book: Rulebook) -> int | None:
    """Return 1 when larger values of a fact are worse, -1 when smaller ones are, None when its limits disagree."""
    sides = {_side(operand, leaf, book.limits) for rule in rules for leaf in leaves_of(rule.condition)
             if leaf.fact == fact and leaf.op in NUMBER_OPS for operand in leaf.wanted}  # fmt: skip
    return sides.pop() if len(sides) == 1 else None


def _side(operand: Operand, leaf: Leaf, limits: Mapping[str, Limit]) -> int:
    if operand.limit is not None:
        return 1 if limits[operand.limit].safe_side == "lower" else -1
    # A plain number has no safe side: the beginning of a bar is taken as its limit, its end says nothing.
    return 1 if leaf.op in ("above", "at_least", "between") else -1


def _numbers_of(rules: list[Rule]) -> list[Fact]:
    leaves = (leaf for rule in rules for leaf in leaves_of(rule.condition) if leaf.op in NUMBER_OPS)
    return list(dict.fromkeys(leaf.fact for leaf in leaves))


def _all_speak_to_the_end(fact: Fact, rules: list[Rule], worse: int) -> bool:
    """Return whether every comparison of a fact, once it holds, goes on holding as the fact grows worse."""
    wanted = ("above", "at_least") if worse > 0 else ("below", "at_most")
    against = ("below", "at_most") if worse > 0 else ("above", "at_least")
    return all(
        leaf.op in (against if turned else wanted)
        for rule in rules for leaf, turned in turned_leaves(rule.condition)
        if leaf.fact == fact and leaf.op in NUMBER_OPS
    )  # fmt: skip


def _turns(fact: Fact, rules: list[Rule], worse: int) -> Iterator[tuple[Step, Step]]:
    """Yield neighbouring numbers of which the worse one is treated more mildly."""
    leaves = [leaf for rule in rules for leaf in leaves_of(rule.condition) if leaf.fact == fact]
    named = (float(each.value) for leaf in leaves if leaf.op in NUMBER_OPS for each in leaf.wanted)
    tried = numbers_at(named, fact.span)[::worse]
    for surroundings in _surroundings(fact, rules):
        steps = [_step(fact, value, rules, surroundings) for value in tried]
        for before, after in pairwise(steps):
            if after.strictness < before.strictness:
                yield before, after


def _surroundings(fact: Fact, rules: list[Rule]) -> Iterator[Mapping[str, FactValue]]:
    for rule in rules:
        for example in rule.examples:
            yield {name: value for name, value in example.facts.items() if name != fact.id}


def _step(fact: Fact, value: float, rules: list[Rule], surroundings: Mapping[str, FactValue]) -> Step:
    facts = {**surroundings, fact.id: FactValue(fact.id, value, value, value)}
    runs = [Run(rule, "", facts) for rule in rules]
    speaking = tuple(run.rule for run in runs if run.outcome != "fails")
    return Step(value, strictness(runs), speaking)


def strictness(runs: list[Run]) -> int:
    """Return how strict the rules that ran are together: for a remedy that there is a reason for, or a stop."""
    if any(run.rule.stance == "stops_work" for run in runs):
        return 2 * max(STOPS[run.outcome] for run in runs if run.rule.stance == "stops_work")
    return STRICTNESS[option_outcome([*runs, *OTHERS])]


def _other(stance: str, wanted: bool) -> Run:
    leaf = Leaf(ALWAYS, "equals", (Operand(wanted, None, ""),), HERE)
    facts = {ALWAYS.id: word(ALWAYS.id, True)}
    rule = Rule(stance, "", Subject("remedies"), leaf, stance, (), None, "", (), (), Source("memory"),  # type: ignore[arg-type]
                HERE, False, "shipped", (), (), ())  # fmt: skip
    return Run(rule, "", facts)


OTHERS = (_other("supports", True), _other("rules_out", False))


def _flaw(looked: Looked, name: str, fact: Fact, silent: Rule, before: Step, after: Step) -> Flaw:
    one, two = (show(each.value, fact.unit) for each in (before, after))
    message = f"{silent.id} speaks against {name} at {fact.id} {one} and falls silent at {two}, which is worse"
    leaf = next(each for each in leaves_of(silent.condition) if each.fact == fact)
    advice = "Let it speak to the end of the range, or let a stricter rule begin there."
    return looked.flaw(ID, leaf.place, message, advice)
