"""Puts a decision into the form that is stored and shown."""

from collections.abc import Mapping, Set
from typing import Any

from recommender import ENGINE
from recommender.deciding.answer import (
    Advice,
    BookShown,
    CaseShown,
    CauseShown,
    ConformityShown,
    FrameShown,
    OptionShown,
    RemedyShown,
    SideShown,
)
from recommender.deciding.before_work import WARRANTY, before_work
from recommender.deciding.decide import Decision
from recommender.deciding.findings import FactsShown, finding, findings
from recommender.deciding.frame import verdict_of_side
from recommender.deciding.makes import bearing_shown, collision_shown, make_shown
from recommender.deciding.notices import notices, refused_for_damage
from recommender.deciding.options import OptionResult, RemedyResult
from recommender.deciding.questions import questions_of
from recommender.deciding.runs import Run
from recommender.deciding.sides import SideDecision
from recommender.deciding.told import cautions, deferrals
from recommender.deciding.tracing import traced
from recommender.deciding.two_gates import disagreement
from recommender.deriving.derived import SIDES, Derived, SideName
from recommender.facts.value import FactValue
from recommender.rulebook.book import HouseChange, Rulebook


def assemble(decision: Decision, derived: Derived, book: Rulebook, case: CaseShown, consent: Set[str]) -> Advice:
    """Return the advice: everything decided, with findings, questions, cautions and the trace behind it."""
    sides = {name: _side(name, decision, derived, book, consent) for name in SIDES}
    questions, left = questions_of(decision, book), deferrals(decision, book)
    return Advice(
        case, _frame(decision, derived, book), sides, questions, _causes(decision, book), cautions(decision, book),
        left, notices(decision, sides, book), tuple(map(_house_change, book.house_changes)),
        BookShown(book.fingerprint, book.edited), ENGINE, traced(decision, derived, book, questions, left),
    )


def _frame(decision: Decision, derived: Derived, book: Rulebook) -> FrameShown:
    return FrameShown(
        decision.frame.verdict, decision.frame.reasons, refused_for_damage(decision),
        findings(decision.runs.frame, book), FactsShown(derived.frame), "verdict/frame",
    )


def _side(name: SideName, decision: Decision, derived: Derived, book: Rulebook, consent: Set[str]) -> SideShown:
    side, facts = decision.sides[name], derived.sides[name].facts
    chosen = side.chosen
    missing = _missing(side, derived.frame.get(WARRANTY), book, consent)
    return SideShown(
        verdict_of_side(side, decision.frame),
        None if chosen is None else chosen.option.remedy,
        side.reason,
        None if chosen is None else make_shown(chosen, missing, decision.frame.verdict == "proceed", book),
        None if chosen is None else bearing_shown(chosen, book),
        _conformity(facts, derived.frame.get("frame.standard"), book),
        tuple(_remedy(each, name, book) for each in side.remedies),
        findings(decision.runs.sides[name].general, book),
        tuple(finding(run, book) for run in side.because),
        FactsShown(facts),
        f"verdict/{name}",
    )


def _missing(side: SideDecision, warranty: FactValue | None, book: Rulebook, consent: Set[str]) -> tuple[str, ...]:
    if side.chosen is None:
        return ()
    remedy = next(each for each in book.remedies if each.id == side.verdict)
    return before_work(remedy, side.chosen, warranty, consent)


def _remedy(result: RemedyResult, side: SideName, book: Rulebook) -> RemedyShown:
    remedy = result.remedy
    options = tuple(_option(each, book) for each in result.options)
    return RemedyShown(remedy.id, remedy.title, remedy.reversible, result.outcome, result.settleable, options,
                       f"contest/{side}/{remedy.id}")


def _option(result: OptionResult, book: Rulebook) -> OptionShown:
    option = result.option
    return OptionShown(option.part, option.part_id, option.condition, result.outcome, findings(result.runs, book),
                       FactsShown(option.facts), f"contest/{result.subject}", collision_shown(option.make),
                       disagreement(result.runs, book))


def _conformity(
    facts: Mapping[str, FactValue], standard: FactValue | None, book: Rulebook
) -> ConformityShown:
    known = None if standard is None else book.standards.get(str(standard.word))
    size, envelope, form = (_word(facts.get(f"conformity.{each}")) for each in ("size", "envelope", "form"))
    if known is None or size == "not_judged":
        return ConformityShown(size, envelope, form, "")
    bore = known.bore
    sizes = (None, None, None) if bore is None else (bore.nominal, bore.lower, bore.upper)
    return ConformityShown(size, envelope, form, str(known.source), *sizes)


def _word(value: FactValue | None) -> str:
    """Return a conformity answer; nothing known of it means that nothing is proved."""
    return "not_proved" if value is None or value.word is None else str(value.word)


def _causes(decision: Decision, book: Rulebook) -> tuple[CauseShown, ...]:
    made = (_cause(cause, name, decision.runs.sides[name].causes, book) for cause in book.causes for name in SIDES)
    return tuple(each for each in made if each.speaks_for or each.speaks_against or each.open)


def _cause(cause: str, side: SideName, runs: tuple[Run, ...], book: Rulebook) -> CauseShown:
    mine = [run for run in runs if cause in run.rule.about.names]
    held = [run for run in mine if run.outcome == "holds"]
    return CauseShown(
        cause, side,
        tuple(finding(run, book) for run in held if run.rule.stance == "supports"),
        tuple(finding(run, book) for run in held if run.rule.stance == "advises_against"),
        tuple(finding(run, book) for run in mine if run.outcome == "undecided"),
    )


def _house_change(change: HouseChange) -> dict[str, Any]:
    return {
        "kind": change.kind, "id": change.id, "before": change.before, "after": change.after, "reason": change.reason,
        "by": change.by, "dated": change.dated.isoformat(), "review_by": change.review_by.isoformat(),
        "looser": change.looser,
    }
