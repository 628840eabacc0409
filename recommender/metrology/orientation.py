"""From which turn lobes are counted, so that results do not depend on where the bench put its zero."""

from collections.abc import Iterator
from math import cos, hypot, radians, sin

import numpy as np

from recommender.metrology.normal import Array
from recommender.metrology.rows import FIVE_LOBES, LOBES, PLACES, THREE_LOBES, TWO_LOBES, UNKNOWNS
from recommender.metrology.sheet import Reading, Sees, Sheet, turned

ANGLE_PLACES = 6


def reoriented(sheet: Sheet) -> Array:
    """Return the matrix (9, 9) that turns and mirrors the lobes of each kind into an order set by the readings.

    The same bore read with another zero, or seen from its other face, comes out the same.
    """
    matrix = np.eye(UNKNOWNS)
    for sees, places in PLACES.items():
        readings = turned(sheet, sees)
        if readings:
            start, sense = _origin(readings, sees)
            angle = radians(LOBES[sees] * start)
            matrix[np.ix_(places, places)] = [[cos(angle), sin(angle)], [-sense * sin(angle), sense * cos(angle)]]
    return matrix


def along_lobes(mean: Array) -> Array:
    """Return the matrix (9, 9) that counts the lobes of each number from where they are found to be widest."""
    matrix = np.eye(UNKNOWNS)
    for places in (TWO_LOBES, THREE_LOBES, FIVE_LOBES):
        along, across = (float(mean[place]) for place in places)
        size = hypot(along, across)
        if size:
            matrix[np.ix_(places, places)] = [[along / size, across / size], [-across / size, along / size]]
    return matrix


def _origin(readings: tuple[Reading, ...], sees: Sees) -> tuple[float, int]:
    """Return the turn to count from and in which sense: a largest reading, ties broken by the readings' pattern."""
    largest = max(each.value for each in readings)
    starts = sorted({each.turn or 0.0 for each in readings if each.value == largest})
    options = ((start, sense) for start in starts for sense in (1, -1))
    return min(options, key=lambda option: tuple(_pattern(readings, sees, *option)))


def _pattern(readings: tuple[Reading, ...], sees: Sees, start: float, sense: int) -> Iterator[tuple[object, ...]]:
    period = 360.0 / LOBES[sees]
    yield from sorted(
        (round(round(sense * ((each.turn or 0.0) - start), ANGLE_PLACES) % period, ANGLE_PLACES), each.depth,
         each.value, each.instrument, each.u)
        for each in readings
    )
