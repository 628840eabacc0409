"""What instruments show of a true bore: exact geometry of the contacts, then error, noise and steps of the display."""

from typing import NamedTuple

import numpy as np

from recommender.metrology.response import Section, three_point, two_point
from recommender.metrology.sheet import Sees
from recommender.rulebook.book import Instrument


class Grid(NamedTuple):
    """Readings of one kind: turns in degrees by depths in mm; no turns: the extremes of a full turn at each depth."""

    sees: Sees
    turns: tuple[float, ...]
    depths: tuple[float | None, ...]


THREE_TURNS = (Grid("three_point", (0, 40, 80), (2, 5)), Grid("three_point", (20, 60, 100), (8,)))
FULL_TURNS = Grid("two_point", (), (1, 5, 8))
RECOMMENDED = (
    *THREE_TURNS, Grid("two_point", (0, 60, 120), (2,)), Grid("two_point", (30, 90, 150), (8,)), FULL_TURNS,
)  # fmt: skip
SWEEP = range(0, 180, 5)


def exact_reading(section: Section, sees: Sees, turn: float) -> float:
    """Return what an instrument without error reads."""
    return two_point(section, turn) if sees == "two_point" else three_point(section, turn).value


def extremes(section: Section, sees: Sees) -> tuple[float, float]:
    """Return the smallest and the largest that an instrument without error reads in a full turn."""
    met = [exact_reading(section, sees, turn) for turn in SWEEP]
    return min(met), max(met)


def displayed(size: float, data: Instrument, random: np.random.Generator) -> float:
    """Return what a display shows of a size (mm, errors shared by all readings in it): noise, then a whole step."""
    return round((size + random.normal() * data.repeatability) / data.resolution) * data.resolution
