"""A parallel part in a tapered bore: pressure along the seat, contact at one end, force along the stroke.

A bore that widens evenly along its axis strains the wall without bending it, so the pressure at each depth is
that of a plain ring with the interference found there. Source: bending of thin cylindrical shells under
axially symmetric load, theory of plates and shells; checked by finite elements.
"""

import math
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from recommender.mechanics.alignment import ARCMIN
from recommender.mechanics.amount import Amount, require_not_negative, require_positive


class Fit(NamedTuple):
    """Interference at the mouth and at the bottom of a seat (mm, on diameter) and the seat's length (mm)."""

    mouth: Amount
    bottom: Amount
    length: Amount


class Reach(NamedTuple):
    """Least and most length of real contact (mm)."""

    least: Amount
    most: Amount


ONE_ENDED_SHARE = Reach(0.13, 0.72)
"""Real over geometric length of contact at one end. Fitted to finite elements, carbon shell of 41 mm bore and
3 mm wall, geometric contact of 5 to 15 mm: the shell leans away from the part before the sizes cross."""


def pressure_at(fit: Fit, depth: Amount, pressure_per_mm: Amount) -> Amount:
    """Return the pressure (MPa) at a depth from the mouth (mm), none where the part is loose.

    `pressure_per_mm` is that of the stack at one place (MPa per mm of interference).
    """
    _require(fit)
    here = fit.mouth + (fit.bottom - fit.mouth) * depth / fit.length
    return np.maximum(here, 0.0) * pressure_per_mm


def pushed_in(fit: Fit, depth: Amount) -> Amount:
    """Return the interference summed from the mouth to a depth (mm of interference x mm), loose length as none."""
    _require(fit)
    slope = (fit.bottom - fit.mouth) / fit.length
    here = fit.mouth + slope * depth
    highest, lowest = np.maximum(fit.mouth, here), np.minimum(fit.mouth, here)
    tight = np.maximum(lowest, 0.0) + np.maximum(highest, 0.0)
    crossing = (highest > 0) & (lowest < 0)
    part = np.where(crossing, highest / np.where(crossing, highest - lowest, 1.0), 1.0)
    summed: Amount = tight / 2 * part * depth
    return summed


def mean_interference(fit: Fit) -> Amount:
    """Return the interference that a parallel seat of the same force has (mm); loose length counts as none."""
    return pushed_in(fit, fit.length) / fit.length


def geometric_contact(fit: Fit) -> Amount:
    """Return the length over which the undeformed sizes overlap (mm)."""
    _require(fit)
    highest, lowest = np.maximum(fit.mouth, fit.bottom), np.minimum(fit.mouth, fit.bottom)
    span = np.where(highest > lowest, highest - lowest, 1.0)
    tight = np.where(lowest > 0, 1.0, np.where(highest > 0, highest / span, 0.0))
    overlap: Amount = fit.length * tight
    return overlap


def real_contact(fit: Fit, shares: Reach = ONE_ENDED_SHARE) -> Reach:
    """Return the bounds of the real length of contact (mm): the whole seat where it is tight at both ends."""
    whole, overlap = touches_throughout(fit), geometric_contact(fit)
    return Reach(
        np.where(whole, fit.length, shares.least * overlap), np.where(whole, fit.length, shares.most * overlap)
    )


def touches_throughout(fit: Fit) -> NDArray[np.bool_]:
    """Return whether the part is tight at both ends, draw by draw; where not, it holds at one end and can rock."""
    _require(fit)
    return (np.asarray(fit.mouth) > 0) & (np.asarray(fit.bottom) > 0)


def rocking_angle(fit: Fit) -> Amount:
    """Return the angle (arcmin) through which a part held at one end can swing; none where it is tight all along.

    The gap at the loose end over the seat's length, from one side of the bore to the other. Source: geometry.
    """
    _require(fit)
    gap = np.maximum(-np.minimum(fit.mouth, fit.bottom), 0.0)
    return np.arctan(gap / fit.length) * ARCMIN


def push_in_along(fit: Fit, depth: Amount, pressure_per_mm: Amount, friction: Amount, diameter: Amount) -> Amount:
    """Return the force (N) that pushes a part in to a depth (mm), the part entering at the mouth.

    A bore that narrows inwards adds the slope of its wall to the friction.
    """
    require_positive(diameter=diameter)
    require_not_negative(friction=friction)
    drag = friction + np.maximum(_half_angle_slope(fit), 0.0)
    return drag * math.pi * diameter * pressure_per_mm * pushed_in(fit, depth)


def self_ejection(fit: Fit, friction: Amount) -> Amount:
    """Return the share of the axial hold that the slope of the wall takes away, pushing the part out."""
    require_positive(friction=friction)
    return np.abs(_half_angle_slope(fit)) / friction


def _half_angle_slope(fit: Fit) -> Amount:
    _require(fit)
    return (fit.bottom - fit.mouth) / 2 / fit.length


def _require(fit: Fit) -> None:
    require_positive(length=fit.length)
