"""What bore gauges read in a bore of any section, exactly, and the factors of roundness measured over a V.

A section is given as its radius (mm) over the angle (radians) about a centre.
"""

from collections.abc import Callable
from math import cos, radians, sin
from typing import NamedTuple

import numpy as np

from recommender.metrology.normal import Array

Section = Callable[[Array], Array]
CLOSE = 1e-13
ROUNDS = 200


class ThreePoint(NamedTuple):
    """A three-point reading in mm, and where the axis of the head stands from the centre of the section."""

    value: float
    axis: tuple[float, float]


def lobed(radius: float, *lobes: tuple[int, float, float]) -> Section:
    """Return a section with lobes, each (number, radius amplitude in mm, phase in degrees)."""
    def at(angle: Array) -> Array:
        form = [amplitude * np.cos(number * angle + radians(phase)) for number, amplitude, phase in lobes]
        return radius + np.sum(form, axis=0) if form else np.full_like(angle, radius)

    return at


def two_point(section: Section, turn: float) -> float:
    """Return the diameter read through the centre at a turn in degrees."""
    return float(section(np.radians([turn, turn + 180.0])).sum())


def three_point(section: Section, turn: float) -> ThreePoint:
    """Return the reading of a self-centring head with one anvil at a turn in degrees.

    The anvils stand 120 degrees apart and move out equally, so the contacts are an equilateral triangle inscribed in
    the section; its circumscribed circle is the reading. Raises ValueError where none is found.
    """
    angles = np.radians(turn + np.array([0.0, 120.0, 240.0]))
    anvils = np.stack([np.cos(angles), np.sin(angles)], axis=1)
    centre, extension = np.zeros(2), float(section(angles).mean())
    for _ in range(ROUNDS):
        contacts = centre + extension * anvils
        beyond = np.hypot(*contacts.T) - section(np.arctan2(contacts[:, 1], contacts[:, 0]))
        centre = centre - (2 / 3) * beyond @ anvils
        extension -= float(beyond.mean())
        if np.max(np.abs(beyond)) < CLOSE * extension:
            return ThreePoint(2 * extension, (float(centre[0]), float(centre[1])))
    raise ValueError("a head with three points finds no place in this section; it is too far from round")


def summit_factor(lobes: int, angle: float) -> float:
    """Return indicator swing over out-of-roundness (2 a) for a V of an angle in degrees, indicator facing it.

    180 degrees is the two-point method, 60 degrees the geometry of a three-point bore gauge, whose reading (a
    diameter, not the sum of three radii) swings two thirds as much. Formula as published for ISO 4292 methods.
    """
    return abs(1 + _over_v(lobes, angle))


def rider_factor(lobes: int, angle: float) -> float:
    """Return the same with the V riding on the part and the indicator on the side of the V (derived)."""
    return abs(_over_v(lobes, angle) - cos(radians(180.0 * lobes)))


def _over_v(lobes: int, angle: float) -> float:
    return cos(radians(lobes * (90.0 + angle / 2))) / sin(radians(angle / 2))
