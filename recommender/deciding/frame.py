"""The decision for the frame, from those of its two sides."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from recommender.deciding.contest import of_stance
from recommender.deciding.runs import Run
from recommender.deciding.sides import SideDecision
from recommender.deriving.derived import SideName

NOT_A_REMEDY = frozenset({"measure_again", "refuse", "held"})


class FrameDecision(NamedTuple):
    """The frame's verdict, why, the undecided stops behind it, and what to choose when parts do not go together."""

    verdict: str
    reasons: tuple[str, ...]
    because: tuple[Run, ...] = ()
    choose: str = ""


def decide_frame(
    general: Sequence[Run], sides: Mapping[SideName, SideDecision], misfit: str
) -> FrameDecision:
    """Return the decision for the frame.

    `general` are the runs of the rules about the frame and about both sides; `misfit` says in words why the parts
    chosen do not belong together and what to choose, empty when they do.
    """
    if refused := _with_verdict(sides, "refuse"):
        return FrameDecision("refuse", refused)
    undecided = tuple(run for run in of_stance(general, "stops_work") if run.outcome == "undecided")
    again = _with_verdict(sides, "measure_again")
    if again or undecided:
        doubts = tuple(f"{run.rule.title}: not settled." for run in undecided)
        return FrameDecision("measure_again", doubts + again, undecided)
    if misfit:
        return FrameDecision("measure_again", (misfit,), choose=misfit)
    return FrameDecision("proceed", ("Each side has a cleared remedy, and the parts belong together.",))


def verdict_of_side(side: SideDecision, frame: FrameDecision) -> str:
    """Return the verdict of a side once the frame is decided: `held` when it has a remedy the frame must wait for."""
    if side.verdict in NOT_A_REMEDY or frame.verdict == "proceed":
        return side.verdict
    return "held"


def _with_verdict(sides: Mapping[SideName, SideDecision], verdict: str) -> tuple[str, ...]:
    told = {name: side.reason for name, side in sides.items() if side.verdict == verdict}
    if len(told) == len(sides) and len(set(told.values())) == 1:
        return (f"Both sides: {told.popitem()[1]}",)
    return tuple(f"{'Drive' if name == 'drive' else 'Non-drive'} side: {reason}" for name, reason in told.items())
