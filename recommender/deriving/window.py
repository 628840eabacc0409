"""The window of a part's outside diameter that meets every limit on a bore, and which limits bind its ends."""

from collections.abc import Iterable, Mapping
from math import ceil, floor
from typing import Literal

from recommender.deriving.derived import Collided
from recommender.deriving.edges import CLEARANCE, COLD, HOT, RING_STRESS, Edges
from recommender.logic.margins import ROOM
from recommender.mechanics.window import Window
from recommender.metrology.weighing import Weighing

Odds = Literal["lucky", "even"]
CAUTIONS_ONLY: dict[str, Odds] = {COLD: "lucky", HOT: "lucky"}
SETTLED_BY_NOTHING: dict[str, Odds] = {**CAUTIONS_ONLY, RING_STRESS: "even", CLEARANCE: "even"}
STEPS_PER_MM = 1000
HAIR = 1e-6
Band = tuple[float, float]


def od_window(edges: Edges, by: Weighing, needed: float = 0.0, wanted: Band | None = None) -> Window:
    """Return the window of measured diameters (mm), to whole um inwards, in which every limit is kept for certain.

    Where that leaves less than `needed` (mm), or not all of the `wanted` diameters, grip at the ends of the riding
    range, which only cautions, is kept as far as it is not lost for certain. Where it still leaves too little, the
    doubt that nothing at a bench settles (moduli, clearance inside its class) counts as even odds.
    """
    strict = _window(edges, by, {})
    if strict.width >= needed and (wanted is None or strict.low <= wanted[0]):
        return strict
    found = _window(edges, by, CAUTIONS_ONLY)
    return found if found.width >= needed else _window(edges, by, SETTLED_BY_NOTHING)


def class_alone(edges: Edges, limits: Iterable[str], by: Weighing) -> Band | None:
    """Return the window (mm) that the limits of a fit class would leave by themselves; None where they do not bind."""
    mine = set(limits)
    least = {limit: each for limit, each in edges.least.items() if limit in mine}
    greatest = {limit: each for limit, each in edges.greatest.items() if limit in mine}
    if not least or not greatest:
        return None
    found = _window(Edges(least, greatest, edges.error), by, {})
    return found.low, found.high


def middle_window(edges: Edges, by: Weighing) -> Window:
    """Return the window (mm) that a bore known without doubt would leave."""
    known: dict[str, Odds] = dict.fromkeys({*edges.least, *edges.greatest}, "even")
    return _window(edges, by, {**known, **CAUTIONS_ONLY})


def collided(edges: Edges, by: Weighing, needed: float) -> Collided | None:
    """Return which two limits leave no room for `needed` (mm), and by how much; None where they leave it."""
    found = _window(edges, by, SETTLED_BY_NOTHING)
    if found.width >= needed:
        return None
    return Collided(found.low_bound_by, found.high_bound_by, round(needed - found.width, 6))


def _least(limit: str, edges: Edges, by: Weighing, odds: Mapping[str, Odds]) -> float:
    if odds.get(limit) == "lucky":
        # A part measured without doubt: what it loses for certain every other part may still hold.
        known = by.once(edges.least[limit] + edges.error)
        return known.low - ROOM * known.sampling_error
    found = by.summary(edges.least[limit])
    sure = found.high if limit in SETTLED_BY_NOTHING else found.most
    return found.value if odds.get(limit) == "even" else sure + ROOM * found.sampling_error


def _greatest(limit: str, edges: Edges, by: Weighing, odds: Mapping[str, Odds]) -> float:
    found = by.summary(edges.greatest[limit])
    sure = found.low if limit in SETTLED_BY_NOTHING else found.least
    return found.value if odds.get(limit) == "even" else sure - ROOM * found.sampling_error


def _window(edges: Edges, by: Weighing, odds: Mapping[str, Odds]) -> Window:
    low_by, low = max(((each, _least(each, edges, by, odds)) for each in edges.least), key=lambda each: each[1])
    high_by, high = min(((each, _greatest(each, edges, by, odds)) for each in edges.greatest), key=lambda each: each[1])
    low, high = ceil(low * STEPS_PER_MM - HAIR) / STEPS_PER_MM, floor(high * STEPS_PER_MM + HAIR) / STEPS_PER_MM
    return Window(low, high, low_by, high_by)
