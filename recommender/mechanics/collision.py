"""An empty window: which two limits collide, and what would open it."""

from collections.abc import Mapping
from typing import NamedTuple

from recommender.mechanics.window import BoreSize, Bound, Window, named_window


class Opener(NamedTuple):
    """One thing that would widen a window, and the width (mm) it would then have."""

    what: str
    width: float


class Collision(NamedTuple):
    """The two limits that collide, by how much too little room there is (mm), and what would give it.

    `by_form` is the part of it that a round, straight bore would give back (mm): the two limits are judged at
    different diameters. `openers` name every limit without which the window would be wide enough, the one that
    gives most first.
    """

    low_limit: str
    high_limit: str
    short_by: float
    by_form: float
    openers: tuple[Opener, ...]


def collision(
    bore: BoreSize, least: Mapping[str, Bound], greatest: Mapping[str, Bound], width_needed: float = 0.0
) -> Collision | None:
    """Return the collision of a window's limits, None where it is `width_needed` (mm) wide or wider.

    A limit stands on the list of openers when its side of the window keeps another limit; where only one limit
    stands there, leaving it out would leave nothing to judge by.
    """
    window = named_window(bore, least, greatest)
    if window.width >= width_needed:
        return None
    return Collision(
        window.low_bound_by,
        window.high_bound_by,
        width_needed - window.width,
        _place(bore, least, window.low_bound_by) - _place(bore, greatest, window.high_bound_by),
        _openers(bore, least, greatest, window, width_needed),
    )


def relief(
    bore: BoreSize, least: Mapping[str, Bound], greatest: Mapping[str, Bound], changed: Mapping[str, Bound]
) -> Window:
    """Return the window with some of its limits moved: a looser bearing class, another cup material, a bond.

    Raises ValueError for a changed limit that the window does not have.
    """
    unknown = changed.keys() - least.keys() - greatest.keys()
    if unknown:
        raise ValueError(f"the window has no limit {sorted(unknown)[0]}")
    return named_window(bore, _moved(least, changed), _moved(greatest, changed))


def _moved(limits: Mapping[str, Bound], changed: Mapping[str, Bound]) -> dict[str, Bound]:
    return {name: changed.get(name, bound) for name, bound in limits.items()}


def _openers(
    bore: BoreSize,
    least: Mapping[str, Bound],
    greatest: Mapping[str, Bound],
    window: Window,
    width_needed: float,
) -> tuple[Opener, ...]:
    tried: list[Opener] = []
    if len(least) > 1:
        without = named_window(bore, _without(least, window.low_bound_by), greatest)
        tried.append(Opener(window.low_bound_by, without.width))
    if len(greatest) > 1:
        without = named_window(bore, least, _without(greatest, window.high_bound_by))
        tried.append(Opener(window.high_bound_by, without.width))
    enough = [each for each in tried if each.width >= width_needed]
    return tuple(sorted(enough, key=lambda each: -each.width))


def _without(limits: Mapping[str, Bound], name: str) -> dict[str, Bound]:
    return {other: bound for other, bound in limits.items() if other != name}


def _place(bore: BoreSize, limits: Mapping[str, Bound], name: str) -> float:
    diameter: float = getattr(bore, limits[name].at)
    return diameter
