"""What became of every option and remedy on one side."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from recommender.deciding.contest import CLEARED, Outcome, best_outcome, can_be_settled, open_runs, option_outcome
from recommender.deciding.runs import Run
from recommender.deriving.derived import OptionFacts
from recommender.rulebook.remedies import Remedy


class OptionResult(NamedTuple):
    """One option, every rule run on it, and its outcome."""

    option: OptionFacts
    subject: str
    runs: tuple[Run, ...]
    outcome: Outcome

    @property
    def settleable(self) -> bool:
        """Return whether it is unsettled and the bench can close every question behind it."""
        return self.outcome == "unsettled" and can_be_settled(self.runs)

    @property
    def open(self) -> tuple[Run, ...]:
        """Return the runs that keep it unsettled, none when it is not."""
        return open_runs(self.runs) if self.outcome == "unsettled" else ()


class RemedyResult(NamedTuple):
    """One remedy on one side with all its options; its outcome is that of its best option."""

    remedy: Remedy
    options: tuple[OptionResult, ...]
    outcome: Outcome

    @property
    def cleared(self) -> tuple[OptionResult, ...]:
        """Return the options that may be used, the best first, else in the order of the parts."""
        return tuple(each for outcome in ("cleared", "cleared_with_cautions") for each in self.options
                     if each.outcome == outcome)

    @property
    def unsettled(self) -> tuple[OptionResult, ...]:
        """Return the unsettled options of an unsettled remedy: those the bench can settle, else all of them."""
        if self.outcome != "unsettled":
            return ()
        left = tuple(each for each in self.options if each.outcome == "unsettled")
        return tuple(each for each in left if each.settleable) or left

    @property
    def settleable(self) -> bool:
        """Return whether it is unsettled and the bench can settle one of its options."""
        return self.outcome == "unsettled" and any(each.settleable for each in self.options)


def option_result(option: OptionFacts, subject: str, runs: Sequence[Run]) -> OptionResult:
    """Return what became of one option from the runs of every rule about its remedy."""
    return OptionResult(option, subject, tuple(runs), option_outcome(runs))


def remedy_result(remedy: Remedy, options: Iterable[OptionResult]) -> RemedyResult:
    """Return what became of one remedy."""
    kept = tuple(options)
    return RemedyResult(remedy, kept, best_outcome(each.outcome for each in kept))


def is_cleared(result: RemedyResult) -> bool:
    """Return whether a remedy may be used, with cautions or without."""
    return result.outcome in CLEARED
