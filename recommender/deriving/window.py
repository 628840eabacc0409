"""The window of outside diameters that meets every limit on a bore, and which limits bind its ends."""

from typing import NamedTuple

import numpy as np

from recommender.deriving.bearing import ring_pressure
from recommender.deriving.candidate import Array, Candidate, Form
from recommender.deriving.fit import shell_strain
from recommender.deriving.frame import REFERENCE
from recommender.deriving.stack import Stack
from recommender.mechanics.bearing import ring_hoop_stress
from recommender.mechanics.bounds import greatest_for
from recommender.mechanics.window import BoreSize, Bound, Window, named_window
from recommender.metrology.summary import summarise
from recommender.rulebook.book import FitClass, Rulebook

UM = 1e-3
MICROSTRAIN = 1e-6


class Reach(NamedTuple):
    """The bore at the ends of its 95 % intervals (mm): what a part must still hold in, and still pass."""

    smallest_inscribed: float
    largest_mean: float
    mean: float


def reach(form: Form, weights: Array, effective: float) -> Reach:
    """Return the ends of the bore's intervals that a window has to respect."""
    mean = summarise(form.mean, weights, effective)
    return Reach(summarise(form.inscribed, weights, effective).low, mean.high, mean.value)


def class_limit(book: Rulebook, fit_class: FitClass, which: str) -> float:
    """Return one of the four numbers of a fit class in mm of interference."""
    return book.limits[fit_class.limits[which]].value * UM


def od_window(
    form: Form,
    fit_class: FitClass,
    book: Rulebook,
    weights: Array,
    effective: float,
    more: dict[str, Bound] | None = None,
) -> Window:
    """Return the window of a part's diameter: the class's bars, and any further limit on the interference."""
    bore = reach(form, weights, effective)
    size = BoreSize(inscribed=bore.smallest_inscribed, mean=bore.largest_mean, widest=bore.largest_mean)
    least = {fit_class.limits["bar_low"]: Bound(class_limit(book, fit_class, "bar_low"), "mean")}
    greatest = {fit_class.limits["bar_high"]: Bound(class_limit(book, fit_class, "bar_high"), "inscribed")}
    return named_window(size, least, {**greatest, **(more or {})})


def strength_bounds(candidate: Candidate, stack: Stack, book: Rulebook, port_near: bool | None) -> dict[str, Bound]:
    """Return the interference (mm) at which shell strain and ring stress reach their limits.

    The strain is firm and counts at an unlucky draw; the ring's stress is as doubtful as the moduli, which nothing
    at the bench settles, and counts at its median, after what roughness takes.
    """
    one = 0.1
    bending = shell_strain(candidate, stack, book, 0.0, port_near, [REFERENCE])
    strained = shell_strain(candidate, stack, book, one, port_near, [REFERENCE])
    limit = "laminate.tension" if candidate.bore_material == "carbon" else "metal.tension"
    allowed = book.limits[limit].value * MICROSTRAIN
    by_strain = greatest_for(allowed - _high(bending), _high(strained - bending) / one)
    at_rest = -np.asarray(ring_hoop_stress(stack.bearing_ring, ring_pressure(candidate, stack, 0.0)))
    pressed = -np.asarray(ring_hoop_stress(stack.bearing_ring, ring_pressure(candidate, stack, one)))
    ring = book.limits["bearing.ring_stress_limit"].value
    per_mm = float(np.median(pressed - at_rest)) / one
    by_ring = greatest_for(ring - float(np.median(at_rest)), per_mm) + book.limits["roughness.loss"].value * UM
    return {
        limit: Bound(float(by_strain), "inscribed"),
        "bearing.ring_stress_limit": Bound(float(by_ring), "inscribed"),
    }


def _high(values: Array) -> float:
    return float(np.quantile(np.asarray(values, dtype=float), 0.975))
