"""The part to make: target and tolerance, lead-in, the bearing seat before pressing, the cup's wall. mm."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from recommender.mechanics.amount import Amount, require_not_negative, require_positive
from recommender.mechanics.rings import AnyRing, bore_closure, pressures_per_mm
from recommender.mechanics.window import Window


class Size(NamedTuple):
    """Smallest and largest diameter to turn to (mm)."""

    low: float
    high: float


class LeadIn(NamedTuple):
    """A chamfer that starts a part in its bore (mm): diameter of its small end, and its length."""

    start: Amount
    length: Amount


def target(window: Window, wanted: float, tolerance: float, gauge: float = 0.0) -> Size | None:
    """Return the diameters to turn to: `tolerance` wide round the wanted one, moved only as far as the window asks.

    `gauge` is the expanded uncertainty of measuring the part, kept free at both ends. None where the window
    is narrower than tolerance and gauge need.
    """
    require_positive(tolerance=tolerance)
    require_not_negative(gauge=gauge)
    lowest, highest = window.low + gauge + tolerance / 2, window.high - gauge - tolerance / 2
    if lowest > highest:
        return None
    middle = min(max(wanted, lowest), highest)
    return Size(middle - tolerance / 2, middle + tolerance / 2)


def lead_in(largest_od: Amount, narrowest_bore: Amount, start_gap: Amount, angle: Amount) -> LeadIn:
    """Return the chamfer whose small end slips into the bore by `start_gap` (mm on diameter).

    `angle` (degrees) is between the chamfer and the axis. Source: geometry.
    """
    require_not_negative(start_gap=start_gap)
    if not np.all((np.asarray(angle) > 0) & (np.asarray(angle) < 90)):
        raise ValueError("the angle of a chamfer lies between 0 and 90 degrees")
    start = np.minimum(narrowest_bore - start_gap, largest_od)
    return LeadIn(start, (largest_od - start) / 2 / np.tan(np.deg2rad(angle)))


def seat_closing(rings: Sequence[AnyRing], outermost_stiffening: Amount = 1.0) -> Amount:
    """Return by how much the innermost bore closes per mm of interference at the outermost interface.

    `rings` run from the cup, without its bearing, to the shell. About half in a thin metal cup, nearly all in
    a polymer one.
    """
    outside = pressures_per_mm(rings, outermost_stiffening=outermost_stiffening)[0]
    return bore_closure(rings[0], 0.0, outside)


def seat_before(seat_after: Amount, interference: Amount, closing: Amount) -> Amount:
    """Return the bearing seat to bore (mm) before pressing so that it has its size after; loose closes nothing."""
    return seat_after + closing * np.maximum(interference, 0.0)


def cup_wall(od: Amount, seat: Amount) -> Amount:
    """Return the wall of a cup (mm) between its bearing seat and its outside; negative is turned through."""
    return (od - seat) / 2


def wall_for_pressure(
    pressure: Amount, strain_factor: Amount, diameter: Amount, modulus: Amount, strain: Amount
) -> Amount:
    """Return the least shell wall (mm) that carries a pressure (MPa) within a strain (a ratio).

    `strain_factor` is that of an opening beside the seat. Source: thin pressurised ring.
    """
    require_positive(modulus=modulus, strain=strain)
    return pressure * strain_factor * diameter / (2 * modulus * strain)


def stiffness_left(wall: Amount, wall_after: Amount) -> tuple[Amount, Amount]:
    """Return what a thinner shell keeps of its hoop and its bending stiffness (ratios). Source: thin ring."""
    require_positive(wall=wall)
    require_not_negative(wall_after=wall_after)
    ratio = wall_after / wall
    return ratio, ratio**3
