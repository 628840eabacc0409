"""The fixed draws that carry the spread of a side: which column of the scores stands for which doubt."""

from collections.abc import Mapping
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from recommender.metrology.scores import normal_scores

Array = NDArray[np.float64]
COUNT = 4096
BORE_COLUMNS = 12
COLUMNS: Mapping[str, int] = {
    name: BORE_COLUMNS + index
    for index, name in enumerate(
        ("part_od", "bore_modulus", "bore_expansion", "part_modulus", "part_expansion", "wall", "clearance", "seat_fit")
    )
} | {"opening": BORE_COLUMNS + 8}


def bore_scores() -> Array:
    """Return the columns of the scores that belong to the bore, shape (4096, 12)."""
    return scores()[:, :BORE_COLUMNS]


def scores() -> Array:
    """Return all scores of a side, the same for both sides, shape (4096, 21)."""
    return normal_scores(BORE_COLUMNS + len(COLUMNS), COUNT)


def normal(doubt: str, mean: float, u: float) -> Array:
    """Return draws of a normal quantity with its own column of scores."""
    return mean + u * scores()[:, COLUMNS[doubt]]


def even(doubt: str, low: float, high: float) -> Array:
    """Return draws spread evenly between two bounds."""
    return low + (high - low) * _ranks(COLUMNS[doubt])


@lru_cache(maxsize=len(COLUMNS))
def _ranks(column: int) -> Array:
    """Return the ranks of one column as shares between 0 and 1: an even spread in the same order."""
    order = np.argsort(scores()[:, column], kind="stable")
    ranks = np.empty(COUNT)
    ranks[order] = (np.arange(COUNT) + 0.5) / COUNT
    ranks.flags.writeable = False
    return ranks
