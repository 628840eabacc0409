"""Which rules differ between two books, and whether any of them comes to something else on a frame."""

from collections.abc import Mapping
from dataclasses import fields, replace
from typing import Any, NamedTuple

from recommender.deciding.runs import Run, every_run, run_rules
from recommender.deriving.derived import Derived
from recommender.rulebook.book import Rule, Rulebook
from recommender.rulebook.canonical import plain
from recommender.rulebook.required import LIMITS

# Everything else of a book is read by the formulas, or decides which options there are.
NOT_FORMULAS = frozenset({
    "limits", "grids", "rules", "wording", "standing", "causes", "fingerprint", "edited", "house_changes", "house_void",
})  # fmt: skip
SAID = frozenset({"title", "because", "cautions", "deferrals", "source", "examples"})


class Sifted(NamedTuple):
    """Two books with nothing in them but the rules that differ."""

    old: Rulebook
    new: Rulebook

    def same_on(self, derived: Derived) -> bool:
        """Return whether every rule that differs comes to the same on a frame, so that nothing else can differ.

        A rule that fails says as much as one that is not there: no remedy is ever left without one that speaks for
        it and one that could rule it out.
        """
        return _outcomes(derived, self.old) == _outcomes(derived, self.new)


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
    one, two = ({rule.id: rule for rule in book.rules} for book in (old, new))
    differing = {name for name in {*one, *two} if _asked(one.get(name)) != _asked(two.get(name))}
    return Sifted(*(replace(book, rules=tuple(rule for rule in book.rules if rule.id in differing))
                    for book in (old, new)))  # fmt: skip


def _asked(rule: Rule | None) -> Any:
    return None if rule is None else {key: each for key, each in plain(rule).items() if key not in SAID}


def _outcomes(derived: Derived, book: Rulebook) -> Mapping[str, Any]:
    return {run.id: _said(run) for run in every_run(run_rules(derived, book)) if run.outcome != "fails"}


def _said(run: Run) -> tuple[Any, ...]:
    rule = run.rule
    open_facts = tuple(sorted({check.leaf.fact.id for check in run.deciding if check.outcome == "undecided"}))
    return run.outcome, rule.stance, rule.if_undecided, rule.sealed, rule.layer, bool(rule.do), open_facts
