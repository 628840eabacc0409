"""Size and form of many drawn bores, from the unknowns of the linear model."""

from collections.abc import Mapping
from typing import Literal

import numpy as np

from recommender.asking.scores import Array
from recommender.metrology.axis import Axis
from recommender.metrology.inscribed import losses
from recommender.metrology.normal import normal_cdfs
from recommender.metrology.rows import BOW, FIVE_LOBES, SIZE, TAPER, THREE_LOBES, TWO_LOBES, UNKNOWNS

Field = Literal["mean", "inscribed", "widest", "mouth", "bottom", "ovality", "lobing", "taper"]
MOVED_BY: Mapping[Field, tuple[int, ...]] = {
    "mean": (SIZE, BOW), "inscribed": (SIZE, TAPER, *TWO_LOBES, *THREE_LOBES, BOW),
    "widest": (SIZE, TAPER, *TWO_LOBES, *THREE_LOBES, BOW), "mouth": (SIZE, TAPER), "bottom": (SIZE, TAPER),
    "ovality": TWO_LOBES, "lobing": THREE_LOBES, "taper": (TAPER,),
}


def field_of(field: Field, beta: Array, five_place: Array, seat_depth: float) -> Array:
    """Return one size or form (mm) of drawn bores; `beta` has shape (9, count), `five_place` are normal scores.

    Taper is without sign.
    """
    axis = Axis(beta[SIZE], beta[TAPER] * seat_depth / 2, beta[BOW], seat_depth)
    if field == "mean":
        return axis.mean()
    if field in ("mouth", "bottom"):
        return axis.at(0.0 if field == "mouth" else seat_depth)
    if field == "taper":
        return np.asarray(np.abs(beta[TAPER]) * seat_depth)
    two, three, five = (np.hypot(*beta[list(places)]) for places in (TWO_LOBES, THREE_LOBES, FIVE_LOBES))
    if field in ("ovality", "lobing"):
        return np.asarray(2 * (two if field == "ovality" else three))
    least, most = losses(two, three, five)
    lost = least + (most - least) * normal_cdfs(five_place)
    return axis.narrowest(seat_depth) - lost if field == "inscribed" else axis.widest() + lost


def drawn(covariance: Array, scores: Array) -> Array:
    """Return deviations of the nine unknowns, shape (9, count), from scores of shape (count, 9 or more)."""
    made: Array = np.linalg.cholesky(covariance[:UNKNOWNS, :UNKNOWNS]) @ scores[:, :UNKNOWNS].T
    return made


def interval(values: Array, confidence: float) -> tuple[Array, Array]:
    """Return the ends of the equal-tailed interval of a confidence along the last axis."""
    low, high = np.quantile(values, ((1 - confidence) / 2, (1 + confidence) / 2), axis=-1)
    return low, high
