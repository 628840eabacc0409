"""The contest between the findings about one option: the strictest stance wins, silence is never consent."""

from collections.abc import Iterable, Sequence
from typing import Literal

from recommender.deciding.runs import Run
from recommender.deciding.settling import run_can_be_settled

Outcome = Literal["cleared", "cleared_with_cautions", "unsettled", "ruled_out", "not_applicable"]
BEST_FIRST: tuple[Outcome, ...] = ("cleared", "cleared_with_cautions", "unsettled", "ruled_out", "not_applicable")
CLEARED: frozenset[Outcome] = frozenset({"cleared", "cleared_with_cautions"})
GONE: frozenset[Outcome] = frozenset({"ruled_out", "not_applicable"})


def of_stance(runs: Iterable[Run], *stances: str) -> tuple[Run, ...]:
    """Return the runs of rules that take one of these stances."""
    return tuple(run for run in runs if run.rule.stance in stances)


def holding(runs: Iterable[Run], stance: str) -> tuple[Run, ...]:
    """Return the runs of this stance that hold."""
    return tuple(run for run in runs if run.rule.stance == stance and run.outcome == "holds")


def not_failing(runs: Iterable[Run], stance: str) -> tuple[Run, ...]:
    """Return the runs of this stance that hold or are undecided."""
    return tuple(run for run in runs if run.rule.stance == stance and run.outcome != "fails")


def option_outcome(runs: Sequence[Run]) -> Outcome:
    """Return the outcome of an option from every rule about its remedy, run on it.

    An option about which the book has no `supports` or no `rules_out` is not applicable: nobody speaks for it, or
    nobody would have spoken against it.
    """
    if holding(runs, "rules_out"):
        return "ruled_out"
    if not of_stance(runs, "rules_out") or not not_failing(runs, "supports"):
        return "not_applicable"
    if open_runs(runs):
        return "unsettled"
    return "cleared_with_cautions" if cautioning(runs) else "cleared"


def best_outcome(outcomes: Iterable[Outcome]) -> Outcome:
    """Return the outcome of a remedy, that of its best option; `not_applicable` when it has none."""
    return min(outcomes, key=BEST_FIRST.index, default="not_applicable")


def open_runs(runs: Sequence[Run]) -> tuple[Run, ...]:
    """Return the runs that keep an option unsettled, reasons to use it last."""
    bars = tuple(run for run in of_stance(runs, "rules_out") if run.outcome == "undecided" and not excused(run))
    return bars + not_failing(runs, "asks_first") + _open_reasons(runs)


def _open_reasons(runs: Sequence[Run]) -> tuple[Run, ...]:
    return () if holding(runs, "supports") else not_failing(runs, "supports")


def cautioning(runs: Iterable[Run]) -> tuple[Run, ...]:
    """Return the runs that add a caution: what is advised against, and bars that are undecided but excused."""
    return tuple(run for run in runs if _cautions(run))


def _cautions(run: Run) -> bool:
    if run.rule.stance == "advises_against":
        return run.outcome != "fails"
    return run.rule.stance == "rules_out" and run.outcome == "undecided" and excused(run)


def excused(run: Run) -> bool:
    """Return whether an undecided bar counts as a caution only: the rule says so and no bench could settle it."""
    if run.rule.if_undecided != "caution" or run.rule.sealed or run.rule.layer == "house":
        return False
    return not any(check.leaf.fact.bench_can_settle for check in run.deciding)


def can_be_settled(runs: Sequence[Run]) -> bool:
    """Return whether the bench can close every open question behind an option with these runs.

    Of several undecided reasons to use it, one that can be settled is enough.
    """
    reasons = _open_reasons(runs)
    others = [run for run in open_runs(runs) if run.rule.stance != "supports"]
    return all(map(run_can_be_settled, others)) and (not reasons or any(map(run_can_be_settled, reasons)))
