"""A remedy with its part while its facts are being derived."""

from collections.abc import Callable
from functools import reduce
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from recommender.deriving.derived import Make
from recommender.metrology.draws import Draws
from recommender.rulebook.book import FitClass, Part

Array = NDArray[np.float64]
Pick = Callable[[Array, Array], Array]


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


def met_by(form: Form, out_of_round: float) -> Form:
    """Return a bore as a part meets it that is itself out of round by so much (mm), at the worst turn of the two."""
    if out_of_round == 0:
        return form
    half = out_of_round / 2
    ovality = form.ovality + out_of_round
    return form._replace(inscribed=form.inscribed - half, widest=form.widest + half, ovality=ovality)


def cut_round(low: float, high: float, spread: Array) -> Form:
    """Return a bore reamed or bored to a band of diameters (mm); `spread` holds even shares between 0 and 1."""
    size = low + (high - low) * spread
    return Form(size, size, size, np.zeros_like(size), size, size)


def lands_of(candidate: Candidate) -> list[tuple[Array, Form]]:
    """Return diameter and bore of every land of a part whose diameter is known."""
    assert candidate.ods is not None, "only a part of known diameter has a fit"
    return list(zip(candidate.ods, candidate.forms, strict=True))


def mean_interference(candidate: Candidate) -> Array:
    """Return part diameter minus mean bore diameter (mm); with two lands the looser one counts."""
    return over_lands(np.minimum, [od - form.mean for od, form in lands_of(candidate)])


def tightest_interference(candidate: Candidate) -> Array:
    """Return part diameter minus inscribed bore diameter (mm); with two lands the tighter one counts."""
    return over_lands(np.maximum, [od - form.inscribed for od, form in lands_of(candidate)])


def loosest_interference(candidate: Candidate) -> Array:
    """Return part diameter minus widest bore diameter (mm); with two lands the looser one counts."""
    return over_lands(np.minimum, [od - form.widest for od, form in lands_of(candidate)])


def widest_ovality(candidate: Candidate) -> Array:
    """Return the ovality (mm) that the part meets; with two lands the larger one counts."""
    return over_lands(np.maximum, [form.ovality for form in candidate.forms])


def over_lands(pick: Pick, values: list[Array]) -> Array:
    """Return the greater (or smaller, as picked) of the values of all lands, draw by draw."""
    return reduce(pick, values)
