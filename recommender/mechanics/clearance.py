"""Which clearance class to order, from what pressing takes of it. Radial internal clearances in mm."""

from collections.abc import Mapping
from typing import NamedTuple


class Band(NamedTuple):
    """Least and greatest value of something (mm)."""

    least: float
    greatest: float


class ClassLeft(NamedTuple):
    """What one clearance class leaves, and by how much it may leave the wanted band on either side (mm)."""

    name: str
    left: Band
    too_tight_by: float
    too_loose_by: float

    @property
    def outside(self) -> float:
        """Return how far this class may leave the wanted band on both sides together (mm); 0 is inside."""
        return self.too_tight_by + self.too_loose_by


def left_of(sold: Band, loss: Band) -> Band:
    """Return the clearance left (mm) of a class as sold when pressing takes a loss somewhere in a band."""
    return Band(sold.least - loss.greatest, sold.greatest - loss.least)


def class_for(classes: Mapping[str, Band], loss: Band, wanted: Band) -> tuple[ClassLeft, ...]:
    """Return the clearance classes, the one to order first: whose clearance left stays nearest to the wanted band.

    Of classes that stay alike the one given first comes first. Raises ValueError without a class, or for a band
    whose ends are the wrong way round.
    """
    if not classes:
        raise ValueError("no clearance class is known for this bearing")
    for name, band in {**classes, "loss": loss, "wanted": wanted}.items():
        if not band.least <= band.greatest:
            raise ValueError(f"the band {name} needs its least value before its greatest")
    judged = [_judged(name, left_of(sold, loss), wanted) for name, sold in classes.items()]
    return tuple(sorted(judged, key=lambda each: each.outside))


def all_gone(classes: Mapping[str, Band], loss: Band, least_left: float = 0.0) -> bool:
    """Return whether even the loosest bearing of the loosest class is certainly left with less than `least_left`."""
    return all(left_of(sold, loss).greatest < least_left for sold in classes.values())


def _judged(name: str, left: Band, wanted: Band) -> ClassLeft:
    tight, loose = max(wanted.least - left.least, 0.0), max(left.greatest - wanted.greatest, 0.0)
    return ClassLeft(name, left, tight, loose)
