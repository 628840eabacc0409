"""Which rules differ between two books, and whether any of them comes to something else on a frame."""

from collections.abc import Iterable, Mapping
from dataclasses import fields, replace
from typing import Any, NamedTuple

from recommender.deciding.options import OptionResult, option_result
from recommender.deciding.runs import (
    NOT_DERIVED,
    Facts,
    Run,
    every_run,
    option_subject,
    run_rules,
)
from recommender.deriving.derived import SIDES, Derived, OptionFacts
from recommender.logic.evaluate import outcome_of
from recommender.rulebook.book import Rule, Rulebook, by_subject
from recommender.rulebook.canonical import plain
from recommender.rulebook.required import LIMITS

# Everything else of a book is read by the formulas, or decides which options there are.
NOT_FORMULAS = frozenset({
    "limits", "grids", "rules", "wording", "standing", "causes", "fingerprint", "edited", "house_changes", "house_void",
})  # fmt: skip
SAID = frozenset({"title", "because", "cautions", "deferrals", "source", "examples"})


class Sifted(NamedTuple):
    """Two books with nothing in them but the rules that differ, and the rules both have, by what they are about.

    Rules about causes are left out: no verdict and no remedy depends on them.
    """

    old: Rulebook
    new: Rulebook
    shared: Mapping[str, list[Rule]]

    def same_on(self, derived: Derived) -> bool:
        """Return whether every rule that differs comes to the same on a frame, so that nothing else can differ.

        A rule that fails says as much as one that is not there: no remedy is ever left without one that speaks for
        it and one that could rule it out. Facts that none of these rules asks need not be there.
        """
        return not self._moved(derived)

    def same_outcomes(self, derived: Derived) -> bool:
        """Return whether no option comes to another outcome, so that neither verdicts nor remedies can differ."""
        moved = self._moved(derived)
        if moved & {"frame", *SIDES}:
            return False
        return all(
            self._same_option(option, {**NOT_DERIVED, **derived.frame, **side.facts, **option.facts})
            for name, side in derived.sides.items() for option in side.options
            if option_subject(name, option) in moved
        )  # fmt: skip

    def _moved(self, derived: Derived) -> set[str]:
        """Return the subjects on which a rule that differs comes to something else."""
        one, two = _outcomes(derived, self.old), _outcomes(derived, self.new)
        return {subject for subject, _ in one.items() ^ two.items()}

    def _same_option(self, option: OptionFacts, facts: Facts) -> bool:
        shared = self.shared.get(option.remedy, [])
        if any(rule.stance == "rules_out" and outcome_of(rule.condition, facts) == "holds" for rule in shared):
            return True
        one, two = (self._result(option, facts, [*shared, *book.rules]) for book in (self.old, self.new))
        return (one.outcome, one.settleable) == (two.outcome, two.settleable)

    def _result(self, option: OptionFacts, facts: Facts, rules: Iterable[Rule]) -> OptionResult:
        about = (rule for rule in rules if option.remedy in rule.about.names)
        return option_result(option, "", [Run(rule, "", facts) for rule in about])


def same_formulas(old: Rulebook, new: Rulebook) -> bool:
    """Return whether facts and options come out the same by both books."""
    sections = [each.name for each in fields(Rulebook) if each.name not in NOT_FORMULAS]
    if any(plain(getattr(old, each)) != plain(getattr(new, each)) for each in sections):
        return False
    read = {*LIMITS, *(name for each in new.fit_classes.values() for name in each.limits.values())}
    return all(old.limits[name].value == new.limits[name].value for name in read)


def regridded(old: Rulebook, new: Rulebook) -> frozenset[str]:
    """Return the facts that the grids of the two books answer otherwise."""
    one, two = _tables(old), _tables(new)
    return frozenset(fact for fact in {*one, *two} if one.get(fact) != two.get(fact))


def _tables(book: Rulebook) -> Mapping[str, Any]:
    return {grid.answers: plain(grid.table) for grid in book.grids.values()}


def sifted(old: Rulebook, new: Rulebook) -> Sifted:
    """Return the two books with only the rules that differ in what they ask or in what follows."""
    one, two = ({rule.id: rule for rule in book.rules if rule.about.kind != "cause"} for book in (old, new))
    differing = {name for name in {*one, *two} if _asked(one.get(name)) != _asked(two.get(name))}
    old_rules, new_rules = (tuple(rule for name, rule in rules.items() if name in differing) for rules in (one, two))
    shared = by_subject(rule for name, rule in two.items() if name not in differing)
    return Sifted(replace(old, rules=old_rules), replace(new, rules=new_rules), shared)


def _asked(rule: Rule | None) -> Any:
    return None if rule is None else {key: each for key, each in plain(rule).items() if key not in SAID}


def _outcomes(derived: Derived, book: Rulebook) -> dict[str, frozenset[Any]]:
    """Return, by subject, what the rules come to that do not fail."""
    found: dict[str, set[Any]] = {}
    for run in every_run(run_rules(derived, book)):
        if run.outcome != "fails":
            found.setdefault(run.subject, set()).add(_said(run))
    return {subject: frozenset(said) for subject, said in found.items()}


def _said(run: Run) -> tuple[Any, ...]:
    rule = run.rule
    open_facts = tuple(sorted({check.leaf.fact.id for check in run.deciding if check.outcome == "undecided"}))
    return rule.id, run.outcome, rule.stance, rule.if_undecided, rule.sealed, rule.layer, bool(rule.do), open_facts
