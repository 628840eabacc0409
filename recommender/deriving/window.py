"""The window of a part's outside diameter that meets every limit on a bore, and which limits bind its ends."""

from collections.abc import Mapping
from math import ceil, floor
from typing import NamedTuple

from recommender.deriving.candidate import Array
from recommender.deriving.derived import Collided
from recommender.deriving.edges import CLEARANCE, COLD, HOT, RING_STRESS, Edges
from recommender.mechanics.window import Window
from recommender.metrology.summary import summarise

CAUTIONS_ONLY = frozenset({COLD, HOT})
SETTLED_BY_NOTHING = frozenset({RING_STRESS, CLEARANCE})
STEPS_PER_MM = 1000
HAIR = 1e-6
Band = tuple[float, float]


class Weighing(NamedTuple):
    """How the draws of a bore count."""

    weights: Array
    effective: float


def od_window(edges: Edges, by: Weighing, needed: float = 0.0, wanted: Band | None = None) -> Window:
    """Return the window of measured diameters (mm), to whole um inwards, in which every limit is kept for certain.

    Where that leaves less than `needed` (mm), or not all of the `wanted` diameters, limits that only caution are left
    out (grip at the ends of the riding range). Where it still leaves too little, the doubt that nothing at a bench
    settles (moduli, clearance inside its class) counts as even odds.
    """
    strict = _window(edges, by, frozenset())
    if strict.width >= needed and (wanted is None or strict.low <= wanted[0]):
        return strict
    barring = edges._replace(least=_without(edges.least))
    found = _window(barring, by, frozenset())
    return found if found.width >= needed else _window(barring, by, SETTLED_BY_NOTHING)


def middle_window(edges: Edges, by: Weighing) -> Window:
    """Return the window (mm) that a bore known without doubt would leave."""
    return _window(edges._replace(least=_without(edges.least)), by, frozenset({*edges.least, *edges.greatest}))


def collided(edges: Edges, by: Weighing, needed: float) -> Collided | None:
    """Return which two limits leave no room for `needed` (mm), and by how much; None where they leave it."""
    found = _window(edges._replace(least=_without(edges.least)), by, SETTLED_BY_NOTHING)
    if found.width >= needed:
        return None
    return Collided(found.low_bound_by, found.high_bound_by, round(needed - found.width, 6))


class _Ends(NamedTuple):
    least: dict[str, float]
    greatest: dict[str, float]


def _without(least: Mapping[str, Array]) -> dict[str, Array]:
    return {limit: draws for limit, draws in least.items() if limit not in CAUTIONS_ONLY}


def _ends(edges: Edges, by: Weighing, even_odds: frozenset[str]) -> _Ends:
    least = {each: summarise(draws, *by) for each, draws in edges.least.items()}
    greatest = {each: summarise(draws, *by) for each, draws in edges.greatest.items()}
    return _Ends(
        {each: found.value if each in even_odds else found.high for each, found in least.items()},
        {each: found.value if each in even_odds else found.low for each, found in greatest.items()},
    )


def _window(edges: Edges, by: Weighing, even_odds: frozenset[str]) -> Window:
    ends = _ends(edges, by, even_odds)
    low_by, low = max(ends.least.items(), key=lambda each: each[1])
    high_by, high = min(ends.greatest.items(), key=lambda each: each[1])
    low, high = ceil(low * STEPS_PER_MM - HAIR) / STEPS_PER_MM, floor(high * STEPS_PER_MM + HAIR) / STEPS_PER_MM
    return Window(low, high, low_by, high_by)
