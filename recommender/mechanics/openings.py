"""What ports, recesses, slots and joints do beside a seat: strain factors per sign, and the hold that is left.

Tension and compression are kept apart because a shell that is only pushed outwards still goes into
compression beside an opening: at the poles of a hole, beside a step of the wall, in a thin ligament that bows.
The numbers of a table come in as an argument; they depend on the wall and on how stiff the part is.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from recommender.mechanics.amount import Amount, require_not_negative, require_positive


class Factors(NamedTuple):
    """What an opening does to a seat, each as a multiple of the plain ring's value.

    `tension` and `compression` (a size, not signed) multiply its hoop strain, `hold` its mean pressure.
    """

    tension: Amount
    compression: Amount
    hold: Amount = 1.0


PLAIN = Factors(1.0, 0.0, 1.0)
FULL_DEPTH_SLOT = Factors(0.0, 0.0, 0.0)
"""A slot or an open crack through the whole depth lets the ring spring open: neither strain nor hold is left."""


class Row(NamedTuple):
    """One row of a table: a ratio, and what an opening of that ratio does."""

    ratio: float
    factors: Factors


@dataclass(frozen=True)
class OpeningTable:
    """Factors against a ratio: ligament over size for a port, wall left over wall for a recess.

    Rows rise in their ratio. Linear between the rows, the last row beyond them; below the first row no factor
    is known: strains are infinite and no hold is left. Raises ValueError for rows that do not rise.
    """

    rows: Sequence[Row]

    def __post_init__(self) -> None:
        """Refuse a table that cannot be read."""
        ratios = [row.ratio for row in self.rows]
        if not ratios or any(np.diff(ratios) <= 0):
            raise ValueError("a table of openings needs rows whose ratio rises")

    def at(self, ratio: Amount) -> Factors:
        """Return the factors at a ratio, which may hold draws."""
        require_not_negative(ratio=ratio)
        ratios = [row.ratio for row in self.rows]
        tension, compression, hold = zip(*(row.factors for row in self.rows), strict=True)
        return Factors(
            np.interp(ratio, ratios, tension, left=np.inf),
            np.interp(ratio, ratios, compression, left=np.inf),
            np.interp(ratio, ratios, hold, left=0.0),
        )


def port(ligament: Amount, size: Amount, table: OpeningTable) -> Factors:
    """Return the factors of a round port from its diameter and the ligament between it and the face (mm)."""
    require_positive(size=size)
    return table.at(ligament / size)


def recess(wall_left: Amount, wall: Amount, table: OpeningTable) -> Factors:
    """Return the factors of a recess or a flat from the wall left there and the wall beside it (mm)."""
    require_positive(wall=wall)
    return table.at(wall_left / wall)


def at_joint(factors: Factors, strength_left: Amount) -> Factors:
    """Return the factors where a moulded joint runs through the place.

    A joint that carries only `strength_left` (0 to 1) of the plain tension counts as that much more tension.
    """
    require_positive(strength_left=strength_left)
    return factors._replace(tension=factors.tension / strength_left)


def faded(factors: Factors, distance: Amount, decay: Amount) -> Factors:
    """Return what is left of an opening's factors `distance` mm outside the seat (0 is within).

    Whole within one decay length of the seat, dying away exponentially beyond it to those of the plain ring.
    """
    require_positive(decay=decay)
    left = np.exp(-np.maximum(distance / decay - 1, 0.0))
    tension, compression, hold = (plain + (here - plain) * left for here, plain in zip(factors, PLAIN, strict=True))
    return Factors(tension, compression, hold)


def worst(openings: Sequence[Factors]) -> Factors:
    """Return the strictest of each factor for a seat with several openings apart from each other."""
    strictest = PLAIN
    for each in openings:
        strictest = Factors(
            np.maximum(strictest.tension, each.tension),
            np.maximum(strictest.compression, each.compression),
            np.minimum(strictest.hold, each.hold),
        )
    return strictest


class Strains(NamedTuple):
    """Largest tensile and compressive hoop strain (ratios, both as sizes)."""

    tension: Amount
    compression: Amount


def strains(hoop: Amount, bending: Amount, factors: Factors) -> Strains:
    """Return the largest strains of a seat with an opening, of which nobody knows where it meets the bending.

    The opening may lie where ovality adds to the hoop strain or where it takes from it; `bending` is a size.
    """
    require_not_negative(bending=bending)
    pulled, pushed = np.maximum(hoop + bending, 0.0), np.maximum(bending - hoop, 0.0)
    tension = np.maximum(_times(factors.tension, pulled), _times(factors.compression, pushed))
    compression = np.maximum(_times(factors.compression, pulled), _times(np.maximum(factors.tension, 1.0), pushed))
    return Strains(tension, compression)


def _times(factor: Amount, strain: Amount) -> Amount:
    """Return factor times strain; no strain stays none even where the factor is unknown (infinite)."""
    if isinstance(factor, float) and factor < np.inf:
        return factor * strain
    factors, sizes = np.broadcast_arrays(factor, strain)
    product: Amount = np.multiply(factors, sizes, out=np.zeros(sizes.shape), where=sizes > 0)
    return product
