"""Runs every rule on its subject: the frame, a side, or an option; no rule is skipped and none stops another."""

from collections.abc import Collection, Iterator, Mapping
from typing import NamedTuple

from recommender.deriving.derived import SIDES, Derived, OptionFacts, SideName
from recommender.facts.catalogue import CATALOGUE
from recommender.facts.value import FactValue, unknown
from recommender.logic.evaluate import Check, Result, deciding_checks, evaluate, outcome_of
from recommender.logic.outcome import Outcome
from recommender.rulebook.book import Rule, Rulebook, RulesAbout

Facts = Mapping[str, FactValue]
NOT_DERIVED: Facts = {fact: unknown(fact, "not derived") for fact in CATALOGUE}


class Run:
    """One rule run on one subject, with the facts it could see; nothing is looked at before it is asked for."""

    __slots__ = ("_outcome", "_result", "facts", "rule", "subject")

    def __init__(self, rule: Rule, subject: str, facts: Facts, outcome: Outcome | None = None) -> None:
        """Keep the rule, what it runs on, the facts, and the outcome where it is known already."""
        self.rule, self.subject, self.facts = rule, subject, facts
        self._outcome = outcome
        self._result: Result | None = None

    @property
    def outcome(self) -> Outcome:
        """Return whether the rule holds, fails or is undecided."""
        if self._outcome is None:
            self._outcome = outcome_of(self.rule.condition, self.facts)
        return self._outcome

    @property
    def result(self) -> Result:
        """Return the outcome of the condition and of every part of it; none is left out."""
        if self._result is None:
            self._result = evaluate(self.rule.condition, self.facts)
        return self._result

    @property
    def id(self) -> str:
        """Return its id in the trace."""
        return f"rule/{self.rule.id}@{self.subject}"

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
    frame = {**NOT_DERIVED, **derived.frame}
    sides = {name: _run_side(name, derived, book, frame) for name in SIDES}
    return AllRuns(_run_all(book.about["frame"], "frame", frame), sides)


def option_subject(side: SideName, option: OptionFacts) -> str:
    """Return the name of an option in the trace."""
    return f"{side}/{option.remedy}/{option.part}"


def _run_side(name: SideName, derived: Derived, book: Rulebook, frame: Facts) -> SideRuns:
    side = derived.sides[name]
    facts = {**frame, **side.facts}
    return SideRuns(
        _run_all(book.about["side"], name, facts),
        _run_all(book.about["cause"], name, facts),
        tuple(_run_option(name, option, book.about.get(option.remedy), facts) for option in side.options),
    )


def _run_option(side: SideName, option: OptionFacts, about: RulesAbout | None, facts: Facts) -> OptionRuns:
    subject = option_subject(side, option)
    return OptionRuns(option, subject, _run_all(about, subject, {**facts, **option.facts}))


def _run_all(about: RulesAbout | None, subject: str, facts: Facts) -> tuple[Run, ...]:
    if about is None:
        return ()
    outcomes = about.board.outcomes(about.board.mark(facts))
    return tuple(Run(rule, subject, facts, outcome) for rule, outcome in zip(about.rules, outcomes, strict=True))


def run_again(runs: AllRuns, derived: Derived, book: Rulebook, changed: Collection[str]) -> AllRuns:
    """Return these runs with those of the rules `changed` (ids) replaced by the runs of the rules in `book`."""
    fresh = run_rules(derived, book)
    sides = {
        name: SideRuns(
            _merged(side.general, fresh.sides[name].general, changed),
            _merged(side.causes, fresh.sides[name].causes, changed),
            tuple(one._replace(runs=_merged(one.runs, two.runs, changed))
                  for one, two in zip(side.options, fresh.sides[name].options, strict=True)),
        )
        for name, side in runs.sides.items()
    }  # fmt: skip
    return AllRuns(_merged(runs.frame, fresh.frame, changed), sides)


def _merged(before: tuple[Run, ...], fresh: tuple[Run, ...], changed: Collection[str]) -> tuple[Run, ...]:
    left = tuple(run for run in before if run.rule.id not in changed)
    if len(left) == len(before) and not fresh:
        return before
    return tuple(sorted((*left, *fresh), key=lambda run: run.rule.id))
