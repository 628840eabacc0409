"""How far a bearing's seat points away from the line through both seats."""

import numpy as np

from recommender.mechanics.amount import Amount, require_positive

ARCMIN = 180 * 60 / np.pi


def seat_angle(offset: Amount, span: Amount, angle: Amount = 0.0) -> Amount:
    """Return the angle (arcmin) between a seat's axis and the line through both seat centres, at its worst.

    `offset` (mm) is between the two axes, `span` (mm) between the seat centres, `angle` (arcmin) between the
    axes: both are taken to add up. Source: geometry.
    """
    require_positive(span=span)
    return np.arctan(np.abs(offset) / span) * ARCMIN + np.abs(angle)
