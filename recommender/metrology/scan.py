"""A bore from the points of a coordinate measuring machine or a roundness scan, fitted directly.

No model of lobes stands between: the reference circles of ISO 12181-1 are those of the points themselves, the inscribed
and circumscribed ones the best of all. Lengths in mm.
"""

from collections.abc import Sequence
from functools import lru_cache
from math import hypot
from typing import NamedTuple

import numpy as np

from recommender.metrology.circles import (
    Circle,
    Zone,
    least_squares,
    maximum_inscribed,
    minimum_circumscribed,
    minimum_zone,
)
from recommender.metrology.normal import Array
from recommender.metrology.sheet import Scan

FEWEST_PER_LOBE = 3
EMPTY_ARC = 60.0


class Section(NamedTuple):
    """The reference circles of one section; `peak_to_valley` is the out-of-roundness about the least squares centre.

    `widest_gap` is the largest angle (deg) between neighbouring points: form may hide in it.
    """

    depth: float
    least_squares: Circle
    inscribed: Circle
    circumscribed: Circle
    zone: Zone
    peak_to_valley: float
    widest_gap: float
    points: int


class Cylinder(NamedTuple):
    """The largest cylinder in a bore lies between `low` and `high`; `offset` is the run of the axis over the depth.

    `low`: one along the straight line through the centres fits in. `high`: none is larger than the tightest section.
    """

    low: float
    high: float
    offset: float
    taper: float


def from_polar(radii: Array, angles: Array, centre: tuple[float, float] = (0.0, 0.0)) -> Array:
    """Return points (n, 2) of a roundness scan: radii in mm at angles in degrees about the spindle."""
    turned = np.radians(angles)
    return np.stack([centre[0] + radii * np.cos(turned), centre[1] + radii * np.sin(turned)], axis=1)


def section(points: Array, depth: float = 0.0) -> Section:
    """Return the circles of the points (n, 2) of one section; raises ValueError where they do not go round."""
    fitted = least_squares(points)
    distances, angles = _about(points, fitted)
    gap = float(np.degrees(np.diff(np.append(np.sort(angles), np.min(angles) + 2 * np.pi)).max()))
    if gap > EMPTY_ARC * FEWEST_PER_LOBE:
        raise ValueError("the points leave half of the bore out; scan all the way round")
    return Section(depth, fitted, maximum_inscribed(points), minimum_circumscribed(points), minimum_zone(points),
                   float(np.ptp(distances)), gap, len(points))


@lru_cache(maxsize=64)
def section_of(points: tuple[tuple[float, float], ...], depth: float = 0.0) -> Section:
    """Return the circles of the points of a section as `section` does; the same points are not fitted twice."""
    return section(np.array(points), depth)


def lobes(points: Array, highest: int = 7) -> dict[int, float]:
    """Return the diameter amplitude (mm, twice that of the radius) of every number of lobes from 2 to `highest`.

    Least squares of the radii about the least squares centre. Raises ValueError for too few points to tell them apart.
    """
    if len(points) < FEWEST_PER_LOBE * highest:
        raise ValueError(f"{highest} lobes need at least {FEWEST_PER_LOBE * highest} points, there are {len(points)}")
    distances, angles = _about(points, least_squares(points))
    orders = np.arange(1, highest + 1)
    waves = np.outer(angles, orders)
    design = np.column_stack([np.ones(len(angles)), np.cos(waves), np.sin(waves)])
    found = np.linalg.lstsq(design, distances, rcond=None)[0]
    return {int(n): 2 * hypot(found[n], found[highest + n]) for n in orders[1:]}


def cylinder(sections: Sequence[tuple[float, Array]]) -> Cylinder:
    """Return the largest cylinder that enters sections (depth, points) measured in one frame, as bounds.

    Raises ValueError for fewer than two depths.
    """
    depths = np.array([depth for depth, _ in sections])
    if len(set(depths.tolist())) < 2:
        raise ValueError("a cylinder needs sections at two depths or more")
    fitted = [least_squares(points) for _, points in sections]
    axis, slope = _straight_line(depths, np.array([[each.x, each.y] for each in fitted]))
    taper = np.polyfit(depths, np.array([each.diameter for each in fitted]), 1)[0]
    straight = np.concatenate([points - line for (_, points), line in zip(sections, axis, strict=True)])
    length = float(np.ptp(depths))
    return Cylinder(
        maximum_inscribed(straight).diameter, min(maximum_inscribed(points).diameter for _, points in sections),
        hypot(*slope) * length, -float(taper) * length)


class Form(NamedTuple):
    """What form takes inside and adds outside of the least squares diameter, the most of all sections, in mm.

    `bent` is what a bore that is not straight may take besides.
    """

    inside: float
    outside: float
    bent: float


def form_of(scans: Sequence[Scan]) -> Form:
    """Return the form of a bore from its scanned sections, measured in one frame.

    What setting the points right does to the differences of circles is left out: a ten-thousandth of them.
    """
    made = [section_of(each.points, each.depth) for each in scans]
    tightest = most = min(each.inscribed.diameter for each in made)
    if len({each.depth for each in scans}) > 1:
        centres = np.array([[each.least_squares.x, each.least_squares.y] for each in made])
        line, _ = _straight_line(np.array([each.depth for each in made]), centres)
        together = np.concatenate([np.array(each.points) - at for each, at in zip(scans, line, strict=True)])
        most = maximum_inscribed(together).diameter
    return Form(
        max(each.least_squares.diameter - each.inscribed.diameter for each in made),
        max(each.circumscribed.diameter - each.least_squares.diameter for each in made),
        max(0.0, tightest - most))


def _straight_line(depths: Array, centres: Array) -> tuple[Array, Array]:
    """Return where a straight axis through the centres (n, 2) runs at each depth, and its slope (2,)."""
    design = np.column_stack([np.ones(len(depths)), depths - depths.mean()])
    axis = np.linalg.lstsq(design, centres, rcond=None)[0]
    return design @ axis, axis[1]


def _about(points: Array, circle: Circle) -> tuple[Array, Array]:
    out = points - np.array([circle.x, circle.y])
    return np.hypot(*out.T), np.arctan2(out[:, 1], out[:, 0])
