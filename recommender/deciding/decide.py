"""From facts and a rule book to the decision for both sides and the frame."""

from collections.abc import Collection, Mapping
from typing import NamedTuple

from recommender.deciding.crack_lock import crack_stops_work
from recommender.deciding.frame import FrameDecision, decide_frame
from recommender.deciding.options import RemedyResult, option_result, remedy_result
from recommender.deciding.runs import AllRuns, Run, SideRuns, run_again, run_rules
from recommender.deciding.sides import SideDecision, decide_side
from recommender.deciding.together import pair_parts
from recommender.deriving.derived import Derived, SideName
from recommender.rulebook.book import Rulebook


class Decision(NamedTuple):
    """The decision for a frame: every run of every rule, the two sides, the frame, and whether a crack was seen."""

    runs: AllRuns
    sides: Mapping[SideName, SideDecision]
    frame: FrameDecision
    crack: bool


def decide(derived: Derived, book: Rulebook) -> Decision:
    """Return the decision for one case: every rule run, the contest on each option, then the sides, then the frame."""
    return _decided(run_rules(derived, book), derived, book)


def decide_again(
    before: Decision, derived: Derived, book: Rulebook, rules: Rulebook, gone: Collection[str]
) -> Decision:
    """Return what `decide` would by `book`, from a decision on the same facts by a book that only differs in rules.

    `rules` has nothing but the rules that differ; `gone` are the ids of those and of the ones `book` has no longer.
    """
    return _decided(run_again(before.runs, derived, rules, gone), derived, book)


def _decided(runs: AllRuns, derived: Derived, book: Rulebook) -> Decision:
    crack = crack_stops_work(derived)
    sides = {
        name: decide_side((*runs.frame, *each.general), _remedies(each, book), crack)
        for name, each in runs.sides.items()
    }
    paired, misfit = pair_parts(sides, book)
    return Decision(runs, paired, decide_frame(_general(runs), paired, misfit), crack)


def _general(runs: AllRuns) -> tuple[Run, ...]:
    return (*runs.frame, *(run for side in runs.sides.values() for run in side.general))


def _remedies(side: SideRuns, book: Rulebook) -> tuple[RemedyResult, ...]:
    results = [option_result(each.option, each.subject, each.runs) for each in side.options]
    return tuple(
        remedy_result(remedy, (each for each in results if each.option.remedy == remedy.id))
        for remedy in book.remedies
    )
