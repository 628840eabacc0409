"""Points of a coordinate measuring machine or a roundness scan, as a block of readings holds them."""

from collections.abc import Iterator
from math import atan2, cos, degrees, hypot, radians, sin
from typing import NamedTuple

from recommender.bench.readings import Path, Readings

Point = tuple[float, float]
FEWEST = 24
WIDEST_GAP = 30.0


class ScanPoints(NamedTuple):
    """The points of one section in mm: x towards turn 0, y towards turn 90; depth in mm from the face."""

    points: tuple[Point, ...]
    instrument: str
    depth: float
    struck: str | None
    path: Path


class Round(NamedTuple):
    """How points go round their middle: mean diameter, largest distance off it in mm, widest gap in degrees."""

    diameter: float
    farthest_off: float
    gap: float


def scans(block: Readings, path: Path) -> Iterator[ScanPoints]:
    """Yield every section of a block that was scanned, struck ones too, in the order of the sheet."""
    for form, rows in (("scan", block.scan), ("points", block.points)):
        for depth, row in (rows or {}).items():
            placed = tuple(_polar(*each) if form == "scan" else (each[0], each[1]) for each in row)
            yield ScanPoints(placed, block.instrument, float(depth), block.strike(depth, None), (*path, form, depth))


def roundabout(points: tuple[Point, ...]) -> Round:
    """Return how points go round; three or more of them."""
    x, y = (sum(each) / len(points) for each in zip(*points, strict=True))
    out = [(px - x, py - y) for px, py in points]
    distances = sorted(hypot(*each) for each in out)
    middle = distances[len(distances) // 2]
    angles = sorted(degrees(atan2(dy, dx)) for dx, dy in out)
    gap = max(b - a for a, b in zip(angles, [*angles[1:], angles[0] + 360.0], strict=True))
    return Round(2 * sum(distances) / len(distances), max(distances[-1] - middle, middle - distances[0]), gap)


def _polar(turn: float, radius: float) -> Point:
    return radius * cos(radians(turn)), radius * sin(radians(turn))
