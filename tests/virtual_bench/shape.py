"""A bore as it truly is: its radius anywhere on the seat, and what there is to know of it, from that geometry alone.

Lengths in mm, depths from the face, angles in degrees. Nothing here knows how a bore is modelled from readings.
"""

from dataclasses import dataclass
from functools import lru_cache
from typing import Any, NamedTuple

import numpy as np

from recommender.metrology.circles import maximum_inscribed, minimum_circumscribed
from recommender.metrology.response import Section

POINTS, DEPTHS, HALVINGS = 360, 81, 5
ANGLES = np.arange(POINTS) * 2 * np.pi / POINTS


class Lobe(NamedTuple):
    """Lobes of one number: amplitude on radius, phase at mid seat, and how far the phase turns from face to end."""

    number: int
    amplitude: float
    phase: float
    twist: float = 0.0


class Bell(NamedTuple):
    """A mouth that opens: how much wider the face is (on diameter), and from which depth on it is not."""

    height: float
    reach: float


class Pinch(NamedTuple):
    """A bump into the bore: its height on radius, where it stands, and how far it reaches (standard deviations)."""

    height: float
    angle: float
    depth: float
    spread: float
    length: float


class Sizes(NamedTuple):
    """What there is to know of a bore (mm): the facts of the catalogue by their meaning, without a model."""

    mean: float
    inscribed: float
    widest: float
    mouth: float
    bottom: float
    taper: float
    ovality: float
    lobing: float


@dataclass(frozen=True)
class Shape:
    """One bore: diameter of its straight line at mid seat, taper (mm per mm), bow at mid seat, and its form."""

    seat: float
    middle: float
    taper: float = 0.0
    bow: float = 0.0
    lobes: tuple[Lobe, ...] = ()
    bell: Bell | None = None
    pinch: Pinch | None = None

    def mean_at(self, depth: Any) -> Any:
        """Return the mean diameter at a depth, what a pinch takes from it left out."""
        place = 2 * np.asarray(depth) / self.seat - 1
        straight = self.middle + self.taper * self.seat / 2 * place + self.bow * (1 - place**2)
        if self.bell is None:
            return straight
        return straight + self.bell.height * np.clip(1 - np.asarray(depth) / self.bell.reach, 0, None) ** 2

    def radius(self, angle: Any, depth: Any) -> Any:
        """Return the radius at angles (radians) and depths."""
        found = self.mean_at(depth) / 2 + 0.0 * angle
        place = np.asarray(depth) / self.seat - 0.5
        for lobe in self.lobes:
            phase = np.radians(lobe.phase + lobe.twist * place)
            found = found + lobe.amplitude * np.cos(lobe.number * angle + phase)
        return found if self.pinch is None else found - _bump(self.pinch, angle, depth)

    def section(self, depth: float) -> Section:
        """Return the section at a depth, as the gauges meet it."""
        return lambda angle: self.radius(angle, depth)

    def sizes(self, start: float = 0.0, end: float | None = None) -> Sizes:
        """Return what there is to know between two depths, of the whole seat unless told otherwise.

        A cylinder enters when it fits every section it passes, so the inscribed one is that of the innermost wall.
        """
        return _sizes(self, start, self.seat if end is None else end)

    def enters_to(self, plug: float) -> float:
        """Return how deep a round plug of full form goes in: to where the wall it has passed leaves it no room."""
        low, high = 0.0, self.seat
        if self._passes(plug, high):
            return high
        if not self._passes(plug, low):
            return low
        for _ in range(HALVINGS):
            middle = (low + high) / 2
            low, high = (middle, high) if self._passes(plug, middle) else (low, middle)
        return low

    def _passes(self, plug: float, depth: float) -> bool:
        wall = self.radius(ANGLES[None, :], np.linspace(0, max(depth, 0.01), 41)[:, None])
        return maximum_inscribed(_points(wall.min(axis=0))).diameter >= plug


@lru_cache(maxsize=64)
def _sizes(shape: Shape, start: float, end: float) -> Sizes:
    depths = np.linspace(start, end, DEPTHS)
    wall = shape.radius(ANGLES[None, :], depths[:, None])
    diameters = 2 * wall.mean(axis=1)
    two = wall + np.roll(wall, POINTS // 2, axis=1)
    three = (wall + np.roll(wall, POINTS // 3, axis=1) + np.roll(wall, -POINTS // 3, axis=1)) * 2 / 3
    return Sizes(
        float((diameters[1:] + diameters[:-1]).mean() / 2),
        maximum_inscribed(_points(wall.min(axis=0))).diameter,
        minimum_circumscribed(_points(wall.max(axis=0))).diameter,
        *_ends(depths, diameters), _taper(depths, diameters),
        float(np.ptp(two, axis=1).max()), float(np.ptp(three, axis=1).max()),
    )  # fmt: skip


def _ends(depths: Any, diameters: Any) -> tuple[float, float]:
    """Return the diameters at both ends of the bowed line that fits best.

    A part is held, and rocks, by the length of the seat; a mouth that opens over its first millimetre or two holds
    nothing, but the wall behind it does, so the face alone does not say how far a part can swing.
    """
    place = 2 * (depths - depths[0]) / (depths[-1] - depths[0]) - 1
    found = np.polyval(np.polyfit(place, diameters, 2), [-1.0, 1.0])
    return float(found[0]), float(found[1])


def _taper(depths: Any, diameters: Any) -> float:
    """Return by how much the straight line that fits best narrows from first to last depth."""
    return -float(np.polyfit(depths - depths.mean(), diameters, 1)[0] * (depths[-1] - depths[0]))


def _bump(pinch: Pinch, angle: Any, depth: Any) -> Any:
    off = np.degrees(np.angle(np.exp(1j * (angle - np.radians(pinch.angle))))) / pinch.spread
    along = (np.asarray(depth) - pinch.depth) / pinch.length
    return pinch.height * np.exp(-(off**2 + along**2) / 2)


def _points(radius: Any) -> Any:
    return np.stack([radius * np.cos(ANGLES), radius * np.sin(ANGLES)], axis=1)
