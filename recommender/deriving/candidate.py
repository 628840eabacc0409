"""A remedy with its part while its facts are being derived."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from recommender.deriving.derived import Make
from recommender.metrology.draws import Draws
from recommender.rulebook.book import FitClass, Part

Array = NDArray[np.float64]


class Form(NamedTuple):
    """The bore a part would meet, as draws in mm: as it is now, under a land, or after cutting."""

    mean: Array
    inscribed: Array
    widest: Array
    ovality: Array
    mouth: Array
    bottom: Array


class Candidate(NamedTuple):
    """A remedy with its part: `od` holds draws of its diameter (mm), None where nothing is known of it.

    `bore_material` is what the part would sit in. A cup with two lands has a form and a diameter per land.
    `clearance_class` is the class of the bearing that lies there; empty where it is not known or still to be ordered.
    """

    remedy: str
    label: str
    part: Part
    material: str
    fit_class: FitClass | None
    bore_material: str | None
    forms: tuple[Form, ...]
    ods: tuple[Array, ...] | None
    od_inputs: tuple[str, ...]
    measured: bool
    assumed: bool = False
    condition: str = ""
    make: Make | None = None
    why_unknown: str = ""
    clearance_class: str = ""


def as_is(draws: Draws) -> Form:
    """Return the bore as it is now."""
    return Form(draws.mean, draws.inscribed, draws.widest, np.abs(draws.ovality), draws.mouth, draws.bottom)


def cut_round(low: float, high: float, spread: Array) -> Form:
    """Return a bore reamed or bored to a band of diameters (mm); `spread` holds even shares between 0 and 1."""
    size = low + (high - low) * spread
    return Form(size, size, size, np.zeros_like(size), size, size)
