"""What a try with a full-form plug says about the inscribed diameter.

A plug that went in to a depth proves an inscribed cylinder of its size down to there; one that was refused at the face
proves that the mouth is smaller, or burred; one that stopped tells the size where it stopped (Taylor principle for
limit gauges). A no-go that was refused says nothing about the widest diameter.
"""

from recommender.metrology.axis import Axis
from recommender.metrology.normal import Array, bell, normal_cdfs
from recommender.metrology.sheet import Gauge, reach


def fits(gauge: Gauge, inscribed: Array) -> Array:
    """Return the probability that the plug passes bores of the given inscribed diameters (mm)."""
    return normal_cdfs((inscribed - gauge.size) / gauge.u)


def inscribed_at(gauge: Gauge, axis: Axis, loss: Array) -> Array:
    """Return the inscribed diameter (mm) the gauge result speaks of: down to where it went, or at the face."""
    return axis.narrowest(reach(gauge, axis.depth)) - loss


def likelihood(gauge: Gauge, axis: Axis, loss: Array) -> Array:
    """Return how well each draw explains the result, between 0 and 1; `loss` is mean minus inscribed diameter."""
    inscribed = inscribed_at(gauge, axis, loss)
    if gauge.result == "did_not_enter":
        return 1 - fits(gauge, inscribed)
    if stopped(gauge, axis.depth):
        return bell((inscribed - gauge.size) / gauge.u)
    return fits(gauge, inscribed)


def stopped(gauge: Gauge, seat_depth: float) -> bool:
    """Return whether the plug stuck inside the seat, so that its size is the bore's at that depth."""
    return gauge.result == "entered_to" and reach(gauge, seat_depth) < seat_depth
