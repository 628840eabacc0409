"""The window for an outside diameter, in closed form, and the two lands of a stepped cup."""

from collections.abc import Mapping
from typing import Literal, NamedTuple

import numpy as np

from recommender.mechanics.amount import Amount, require_positive

Place = Literal["inscribed", "mean", "widest"]


class BoreSize(NamedTuple):
    """Diameters of one bore (mm)."""

    inscribed: float
    mean: float
    widest: float


class Bound(NamedTuple):
    """A limit on the interference (mm) and the diameter of the bore at which it is judged."""

    interference: float
    at: Place


class Window(NamedTuple):
    """Smallest and largest outside diameter (mm) and the limits that bind them; empty if low > high."""

    low: float
    high: float
    low_bound_by: str
    high_bound_by: str

    @property
    def width(self) -> float:
        """Largest minus smallest diameter (mm), negative for an empty window."""
        return self.high - self.low


class LandBore(NamedTuple):
    """What one land of a stepped cup meets: its place (mm from the face) and the bore's diameters there."""

    start: Amount
    end: Amount
    mean: Amount
    inscribed: Amount
    widest: Amount


def od_window(
    bore_smallest: Amount, bore_largest: Amount, least_interference: Amount, greatest_interference: Amount
) -> tuple[Amount, Amount]:
    """Return the smallest and largest outside diameter (mm) for a bore known to lie between two diameters."""
    return bore_largest + least_interference, bore_smallest + greatest_interference


def named_window(bore: BoreSize, least: Mapping[str, Bound], greatest: Mapping[str, Bound]) -> Window:
    """Return the window that meets every limit on the interference, with the names of the two that bind it.

    Of limits that bind alike the first one given is named. Raises ValueError without a limit on either side.
    """
    if not least or not greatest:
        raise ValueError("a window needs at least one limit on either side")
    low_by, low = max(_diameters(bore, least).items(), key=lambda limit: limit[1])
    high_by, high = min(_diameters(bore, greatest).items(), key=lambda limit: limit[1])
    return Window(low, high, low_by, high_by)


def lands(
    mouth: Amount, bottom: Amount, depth: Amount, land_length: Amount, ovality: Amount = 0.0
) -> tuple[LandBore, LandBore]:
    """Return what the outer and the inner land of a stepped cup meet in a bore with a straight taper.

    `mouth` and `bottom` are mean diameters at the face and at `depth`. Each land keeps its own share of the
    taper: its inscribed and widest diameters lie half of that and half of the ovality from its mean. Raises
    ValueError where the lands would overlap.
    """
    require_positive(land_length=land_length)
    if np.any(np.asarray(2 * land_length) > depth):
        raise ValueError("two lands must fit into the depth of the seat")
    slope = (bottom - mouth) / depth
    reach = (np.abs(slope) * land_length + ovality) / 2
    outer = mouth + slope * land_length / 2
    inner = bottom - slope * land_length / 2
    return (
        LandBore(0.0, land_length, outer, outer - reach, outer + reach),
        LandBore(depth - land_length, depth, inner, inner - reach, inner + reach),
    )


def step(outer_od: Amount, inner_od: Amount) -> Amount:
    """Return the step between the lands of a cup (mm, on diameter, without sign)."""
    return np.abs(outer_od - inner_od)


def _diameters(bore: BoreSize, limits: Mapping[str, Bound]) -> dict[str, float]:
    return {name: getattr(bore, bound.at) + bound.interference for name, bound in limits.items()}
