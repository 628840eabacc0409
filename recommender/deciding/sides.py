"""The decision for one side, in one fixed order."""

from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from recommender.deciding.contest import GONE, holding, not_failing
from recommender.deciding.crack_lock import REASON
from recommender.deciding.options import OptionResult, RemedyResult, is_cleared
from recommender.deciding.runs import Run


class SideDecision(NamedTuple):
    """What a side may have done to it before the frame is asked.

    `verdict` is a remedy id, `measure_again` or `refuse`; `chosen` the option behind a remedy; `because` the runs
    that decided; `waiting` the unsettled remedies the bench can settle; `passed` those nothing here can settle.
    `damage` tells a refusal for damage from one for size or form.
    """

    verdict: str
    reason: str
    because: tuple[Run, ...] = ()
    remedies: tuple[RemedyResult, ...] = ()
    chosen: OptionResult | None = None
    waiting: tuple[RemedyResult, ...] = ()
    passed: tuple[RemedyResult, ...] = ()
    damage: bool = False


def decide_side(general: Sequence[Run], remedies: tuple[RemedyResult, ...], crack: bool) -> SideDecision:
    """Return the decision for a side.

    `general` are the runs of the rules about the frame and about this side, `remedies` what became of each remedy
    in the order of the book, `crack` whether a crack was seen.
    """
    if crack:
        return SideDecision("refuse", REASON, holding(general, "stops_work"), remedies, damage=True)
    if stopping := holding(general, "stops_work"):
        return SideDecision("refuse", _named("The work is stopped", stopping), stopping, remedies, damage=True)
    if asking := not_failing(general, "asks_first"):
        waiting = tuple(each for each in remedies if each.settleable)
        reason = _named("To be settled first", asking)
        return SideDecision("measure_again", reason, asking, remedies, waiting=waiting)
    if not any(each.options for each in remedies):
        return SideDecision("measure_again", "No part is known that could go into this bore.", remedies=remedies)
    if all(each.outcome in GONE for each in remedies):
        stopping = _stoppers(remedies)
        return SideDecision("refuse", _named("No remedy is left", stopping), stopping, remedies)
    return _walk(remedies)


def _walk(remedies: tuple[RemedyResult, ...]) -> SideDecision:
    waiting: list[RemedyResult] = []
    passed: list[RemedyResult] = []
    for each in remedies:
        if is_cleared(each):
            return _first_cleared(each, tuple(waiting), tuple(passed), remedies)
        if each.outcome == "unsettled":
            (waiting if each.settleable else passed).append(each)
    return _undecidable(tuple(waiting) or tuple(passed), remedies)


def _first_cleared(
    each: RemedyResult, waiting: tuple[RemedyResult, ...], passed: tuple[RemedyResult, ...],
    remedies: tuple[RemedyResult, ...],
) -> SideDecision:
    ahead = waiting if each.remedy.reversible else _ahead_of_cutting(waiting, remedies)
    if ahead and not each.remedy.reversible:
        return _undecidable(ahead, remedies)
    return SideDecision(
        each.remedy.id, f"First cleared remedy in the order of the book: {each.remedy.title}.",
        (), remedies, each.cleared[0], waiting, passed,
    )


def _ahead_of_cutting(
    waiting: tuple[RemedyResult, ...], remedies: tuple[RemedyResult, ...]
) -> tuple[RemedyResult, ...]:
    """Return what to settle before cutting: remedies met first, and reversible ones wherever they stand."""
    met = {each.remedy.id for each in waiting}
    return tuple(each for each in remedies
                 if each.remedy.id in met or (each.settleable and each.remedy.reversible))


def _undecidable(waiting: tuple[RemedyResult, ...], remedies: tuple[RemedyResult, ...]) -> SideDecision:
    because = tuple(run for each in waiting for option in each.unsettled for run in option.open)
    reason = _named("Open before a remedy can be chosen", because)
    return SideDecision("measure_again", reason, because, remedies, waiting=waiting)


def _named(lead: str, runs: Sequence[Run]) -> str:
    """Return a reason that names the rules behind it, those that speak on most options first."""
    often = Counter(run.rule.title for run in runs)
    return f"{lead}: {'; '.join(title for title, _ in often.most_common())}."


def _stoppers(remedies: tuple[RemedyResult, ...]) -> tuple[Run, ...]:
    """Return the findings that stopped each remedy: what rules it out, else the reasons to use it that fail."""
    options = [option for each in remedies for option in each.options]
    return tuple(run for option in options for run in (
        holding(option.runs, "rules_out") if option.outcome == "ruled_out"
        else tuple(run for run in option.runs if run.rule.stance == "supports")))
