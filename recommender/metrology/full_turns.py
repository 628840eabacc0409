"""What the swing of full turns says of the form: it may go all along the seat, or be that of one depth alone.

A mixture: the swing at a depth is that of the lobes which go all along the seat, or, with the chance
`Assumptions.local_share`, larger by a form of that depth alone (a pinch, an end that opens unevenly), by anything up to
`Assumptions.local_most` or to the largest swing read, each as likely. Averaged over the depths, form of one depth would
pass for less than it is. Derived; lengths in mm on diameter.
"""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from recommender.metrology.normal import Array, bell, normal_cdfs
from recommender.metrology.sheet import Assumptions, Sees, Sheet, Span, turned

ROOT_TWO_PI = np.sqrt(2 * np.pi)


class FullTurn(NamedTuple):
    """Swing (largest minus smallest) of so many full turns at one depth, on average, and its doubt, mm."""

    depth: float | None
    swing: float
    doubt: float
    taken: int


def full_turns(sheet: Sheet, sees: Sees) -> tuple[FullTurn, ...]:
    """Return the full turns read with one kind of instrument, those of one instrument at one depth together."""
    at: dict[tuple[str, float | None], list[Span]] = {}
    for each in sorted((span for span in sheet.spans if span.full_turn and span.sees == sees), key=repr):
        at.setdefault((each.instrument, each.depth), []).append(each)
    return tuple(sorted((_together(spans) for spans in at.values()), key=repr))


def taken_alone(sheet: Sheet, sees: Sees) -> tuple[FullTurn, ...]:
    """Return the full turns that alone show the lobes of their kind, none where readings at known turns do too."""
    return () if turned(sheet, sees) else full_turns(sheet, sees)


def apart(turns: Sequence[FullTurn]) -> float:
    """Return how far half swings differ beyond their doubt, mm: what the linear model doubts each full turn by."""
    if not turns:
        return 0.0
    swings = [each.swing for each in turns]
    return max(0.0, (max(swings) - min(swings)) / 2 - max(each.doubt for each in turns))


def explained(swing: Array, turns: Sequence[FullTurn], turn: FullTurn, assumed: Assumptions) -> Array:
    """Return how well swings of the lobes all along, shape (count,), explain one full turn, from 0 to about 1."""
    return _along(swing, turn, assumed) + _alone(swing, turns, turn, assumed)


def largest_swing(swing: Array, turns: Sequence[FullTurn], assumed: Assumptions, scores: Array) -> Array:
    """Return the swing at the depth that swings most, shape (count,), no less than that of the lobes all along.

    `scores` are standard normal, shape (count, 2): whether that depth has a form of its own, and its error.
    """
    if not turns:
        return swing
    most = max(turns, key=lambda each: each.swing)
    along, alone = _along(swing, most, assumed), _alone(swing, turns, most, assumed)
    chance = np.divide(alone, along + alone, out=np.zeros(len(swing)), where=along + alone > 0)
    own = np.maximum(swing, most.swing + most.doubt * scores[:, 1])
    return np.where(normal_cdfs(scores[:, 0]) < chance, own, swing)


def _along(swing: Array, turn: FullTurn, assumed: Assumptions) -> Array:
    return (1 - assumed.local_share) * bell((swing - turn.swing) / turn.doubt)


def _alone(swing: Array, turns: Sequence[FullTurn], turn: FullTurn, assumed: Assumptions) -> Array:
    """Return the density of a swing with a form of its own, on the scale on which that without is 1 at best."""
    most = max(assumed.local_most, turn.doubt, *(each.swing for each in turns))
    more = (turn.swing - swing) / turn.doubt
    within = normal_cdfs(more) - normal_cdfs(more - most / turn.doubt)
    found: Array = assumed.local_share * within * turn.doubt * ROOT_TWO_PI / most
    return found


def _together(spans: Sequence[Span]) -> FullTurn:
    swings = [each.largest - each.smallest for each in spans]
    doubt = float(np.sqrt(2.0 / len(spans))) * max(each.u for each in spans)
    return FullTurn(spans[0].depth, sum(swings) / len(spans), doubt, len(spans))
