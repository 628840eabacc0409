"""Size and form of a bore together with the errors its readings share: what one more reading would change."""

from collections.abc import Iterable
from typing import NamedTuple

import numpy as np

from recommender.asking.scores import Array
from recommender.metrology.model import posterior
from recommender.metrology.rows import SIZE, UNKNOWNS, coefficients, rows
from recommender.metrology.sheet import Reading, Sheet


class Joint(NamedTuple):
    """Mean and covariance of the nine unknowns of a bore (mm) followed by the shared errors, each in its own u."""

    mean: Array
    covariance: Array
    names: tuple[str, ...]
    seat_depth: float

    def row(self, reading: Reading) -> Array:
        """Return the coefficients of a reading with known depth and turn; raises ValueError without them."""
        if reading.depth is None or reading.turn is None:
            raise ValueError("a candidate reading has a depth and a turn")
        found = np.zeros(UNKNOWNS + len(self.names))
        found[:UNKNOWNS] = coefficients(reading.depth, self.seat_depth, reading.sees, reading.turn)
        for name, u in reading.shared:
            found[UNKNOWNS + self.names.index(name)] += u
        return found

    def predicted(self, reading: Reading) -> tuple[float, float]:
        """Return what a candidate would read, in mm, and with what standard uncertainty."""
        row = self.row(reading)
        return float(row @ self.mean), float(np.sqrt(row @ self.covariance @ row + reading.u**2))

    def gain(self, reading: Reading) -> Array:
        """Return how far every unknown moves per mm a candidate reads beside what was predicted."""
        row = self.row(reading)
        moved: Array = self.covariance @ row / (row @ self.covariance @ row + reading.u**2)
        return moved

    def after(self, reading: Reading) -> Array:
        """Return the covariance once a candidate has been read, whatever it shows."""
        left: Array = self.covariance - np.outer(self.gain(reading), self.row(reading) @ self.covariance)
        return (left + left.T) / 2


def joint(sheet: Sheet, candidates: Iterable[Reading] = ()) -> Joint:
    """Return the joint posterior of a sheet; raises ValueError where nothing was read.

    `candidates` name the further errors that readings to come would share.
    """
    made, prior_sd = rows(sheet), posterior(sheet).prior_sd
    used = {name for row in made for name, _ in row.shared}
    names = tuple(sorted(used | {name for each in candidates for name, _ in each.shared}))
    design = np.zeros((len(made), UNKNOWNS + len(names)))
    for place, row in enumerate(made):
        design[place, :UNKNOWNS] = row.coefficients
        for name, u in row.shared:
            design[place, UNKNOWNS + names.index(name)] += u
    values = np.array([row.value for row in made])
    sized = design[:, SIZE] == 1
    reference = float(values[sized].mean())
    weighted = design.T / np.array([row.variance for row in made])
    prior = np.concatenate([prior_sd**-2.0, np.ones(len(names))])
    covariance = np.linalg.inv(weighted @ design + np.diag(prior))
    mean = covariance @ weighted @ (values - reference * design[:, SIZE])
    mean[SIZE] += reference
    return Joint(mean, (covariance + covariance.T) / 2, names, sheet.seat_depth)
