"""Runs every rule on its subject: the frame, a side, or an option; no rule is skipped and none stops another."""

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from recommender.deriving.derived import SIDES, Derived, OptionFacts, SideName
from recommender.facts.catalogue import CATALOGUE
from recommender.facts.value import FactValue, unknown
from recommender.logic.evaluate import Check, Result, deciding_checks, evaluate
from recommender.logic.outcome import Outcome
from recommender.rulebook.book import Rule, Rulebook

Facts = Mapping[str, FactValue]
NOT_DERIVED: Facts = {fact: unknown(fact, "not derived") for fact in CATALOGUE}


class Run(NamedTuple):
    """One rule run on one subject, with the facts it could see."""

    rule: Rule
    subject: str
    result: Result
    facts: Facts

    @property
    def id(self) -> str:
        """Return its id in the trace."""
        return f"rule/{self.rule.id}@{self.subject}"

    @property
    def outcome(self) -> Outcome:
        """Return whether the rule holds, fails or is undecided."""
        return self.result.outcome

    @property
    def deciding(self) -> tuple[Check, ...]:
        """Return the checks that made the outcome what it is; of an undecided run, the undecided ones."""
        return deciding_checks(self.result)


class OptionRuns(NamedTuple):
    """Every rule about a remedy run on one of its options."""

    option: OptionFacts
    subject: str
    runs: tuple[Run, ...]


class SideRuns(NamedTuple):
    """The runs of one side: rules about the side, rules about causes, and those about each option."""

    general: tuple[Run, ...]
    causes: tuple[Run, ...]
    options: tuple[OptionRuns, ...]


class AllRuns(NamedTuple):
    """Every run of every rule on one case."""

    frame: tuple[Run, ...]
    sides: Mapping[SideName, SideRuns]


def every_run(runs: AllRuns) -> Iterator[Run]:
    """Yield every run, those about the frame first."""
    yield from runs.frame
    for side in runs.sides.values():
        yield from (*side.general, *side.causes)
        for option in side.options:
            yield from option.runs


def run_rules(derived: Derived, book: Rulebook) -> AllRuns:
    """Return every rule of the book run on its subject; file order never matters, runs are sorted by rule id."""
    rules = sorted(book.rules, key=lambda rule: rule.id)
    frame = {**NOT_DERIVED, **derived.frame}
    sides = {name: _run_side(name, derived, rules, frame) for name in SIDES}
    return AllRuns(_run_all(rules, "frame", "frame", frame), sides)


def option_subject(side: SideName, option: OptionFacts) -> str:
    """Return the name of an option in the trace."""
    return f"{side}/{option.remedy}/{option.part}"


def _run_side(name: SideName, derived: Derived, rules: list[Rule], frame: Facts) -> SideRuns:
    side = derived.sides[name]
    facts = {**frame, **side.facts}
    return SideRuns(
        _run_all(rules, "side", name, facts),
        _run_all(rules, "cause", name, facts),
        tuple(_run_option(name, option, rules, facts) for option in side.options),
    )


def _run_option(side: SideName, option: OptionFacts, rules: list[Rule], facts: Facts) -> OptionRuns:
    subject = option_subject(side, option)
    about = [rule for rule in rules if option.remedy in rule.about.names]
    return OptionRuns(option, subject, _run_all(about, "remedies", subject, {**facts, **option.facts}))


def _run_all(rules: Iterable[Rule], kind: str, subject: str, facts: Facts) -> tuple[Run, ...]:
    about = (rule for rule in rules if rule.about.kind == kind)
    return tuple(Run(rule, subject, evaluate(rule.condition, facts), facts) for rule in about)
