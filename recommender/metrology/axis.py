"""How the mean diameter runs along the seat: a straight taper with a bow."""

from typing import NamedTuple

import numpy as np

from recommender.metrology.normal import Array


class Axis(NamedTuple):
    """Draws of the mean diameter along a seat, each of shape (count,), in mm.

    `middle` is the straight line at mid seat, `tilt` its change from mid seat to the inner end, `bow` the deviation
    from straight at mid seat (a parabola, none at the ends); `depth` is the length of the seat.
    """

    middle: Array
    tilt: Array
    bow: Array
    depth: float

    def at(self, depth: float) -> Array:
        """Return the mean diameter at a depth in mm."""
        place = self._place(depth)
        return self.middle + self.tilt * place + self.bow * (1 - place**2)

    def mean(self) -> Array:
        """Return the mean diameter over the seat; a parabola holds two thirds of its bow on average."""
        return self.middle + self.bow * (2 / 3)

    def narrowest(self, depth: float) -> Array:
        """Return the smallest mean diameter between the face and a depth in mm."""
        ends = np.minimum(self.at(0.0), self.at(depth))
        waisted = self.bow < 0
        bow = np.where(waisted, self.bow, -1.0)
        turning = self.tilt / (2 * bow)
        inside = waisted & (np.abs(turning) < 1) & (turning < self._place(depth))
        return np.where(inside, np.minimum(ends, self.middle + bow + self.tilt**2 / (4 * bow)), ends)

    def widest(self) -> Array:
        """Return the largest mean diameter over the seat."""
        return -Axis(-self.middle, -self.tilt, -self.bow, self.depth).narrowest(self.depth)

    def _place(self, depth: float) -> float:
        return 2 * depth / self.depth - 1 if self.depth else 0.0
