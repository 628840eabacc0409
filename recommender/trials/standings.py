"""What counts of a decision when two are compared, taken from the decision itself, without writing an advice."""

from collections.abc import Iterable

from recommender.deciding.decide import Decision
from recommender.deciding.frame import verdict_of_side
from recommender.deciding.milder import STOPS, Standing
from recommender.deciding.notices import refused_for_damage
from recommender.deciding.runs import Run
from recommender.rulebook.book import Rulebook


def standing_of(decision: Decision, book: Rulebook) -> Standing:
    """Return what counts of a decision: the same as of the advice written from it."""
    sides = decision.sides
    general = [*decision.runs.frame, *(run for side in decision.runs.sides.values() for run in side.general)]
    return Standing(
        _stops(general, refused_for_damage(decision)),
        {"frame": decision.frame.verdict}
        | {name: verdict_of_side(side, decision.frame) for name, side in sides.items()},
        {f"{name}/{each.remedy.id}": each.outcome for name, side in sides.items() for each in side.remedies},
        frozenset(each.id for each in book.remedies if not each.reversible),
    )


def _stops(runs: Iterable[Run], damage: bool) -> int:
    return max((2 if damage else 0, *(STOPS[run.outcome] for run in runs if run.rule.stance == "stops_work")))
