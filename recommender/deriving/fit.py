"""Interference and pressure of a candidate."""

import numpy as np

from recommender.deriving.candidate import Array, Candidate, Form
from recommender.deriving.collector import Collector
from recommender.deriving.draws_of import even
from recommender.deriving.frame import REFERENCE
from recommender.deriving.pressed import UM, Pressed
from recommender.deriving.stack import Stack
from recommender.mechanics.grip import long_term_pressure
from recommender.mechanics.rings import stack_pressures
from recommender.mechanics.seat import effective_interference
from recommender.rulebook.book import Rulebook

INTERFERENCE = ("fit.mean_interference", "fit.tightest_interference", "fit.loosest_interference", "compound.gap")
PRESSURES = ("fit.pressure", "fit.cold_pressure", "fit.hot_pressure", "fit.long_term_pressure")
CREEP = ("creep.unfilled", "creep.filled")


def lands_of(candidate: Candidate) -> list[tuple[Array, Form]]:
    """Return diameter and bore of every land of a part whose diameter is known."""
    assert candidate.ods is not None, "only a part of known diameter has a fit"
    return list(zip(candidate.ods, candidate.forms, strict=True))


def mean_interference(candidate: Candidate) -> Array:
    """Return part diameter minus mean bore diameter (mm); with two lands the looser one counts."""
    return np.asarray(np.min([od - form.mean for od, form in lands_of(candidate)], axis=0))


def tightest_interference(candidate: Candidate) -> Array:
    """Return part diameter minus inscribed bore diameter (mm); with two lands the tighter one counts."""
    return np.asarray(np.max([od - form.inscribed for od, form in lands_of(candidate)], axis=0))


def loosest_interference(candidate: Candidate) -> Array:
    """Return part diameter minus widest bore diameter (mm); with two lands the looser one counts."""
    return np.asarray(np.min([od - form.widest for od, form in lands_of(candidate)], axis=0))


def interference_facts(candidate: Candidate, weights: Array, effective: float, made: Collector) -> None:
    """Derive the interference over the bore's form; unknown where the part's diameter is."""
    if candidate.ods is None:
        for fact in INTERFERENCE:
            made.unknown(fact, candidate.why_unknown, *candidate.od_inputs)
        return
    mean = mean_interference(candidate) / UM
    numbers = (mean, tightest_interference(candidate) / UM, loosest_interference(candidate) / UM, -mean)
    bores = ("bore.mean_diameter", "bore.inscribed_diameter", "bore.widest_diameter", "bore.mean_diameter")
    for fact, values, bore in zip(INTERFERENCE, numbers, bores, strict=True):
        made.drawn(fact, values, weights, effective, (bore, "part.od"), candidate.assumed)


def pressures(stack: Stack, interference: Array | float, temperature: float = REFERENCE) -> list[Array]:
    """Return the pressure at every interface (MPa) at a temperature, for an interference of the seat (mm)."""
    found = stack_pressures(
        stack.rings, stack.interferences(interference), temperature - REFERENCE, outermost_stiffening=stack.stiffening
    )
    return [np.asarray(each) for each in found]


def effective_part_interference(interference: Array | float, book: Rulebook) -> Array:
    """Return the interference (mm) left once the peaks of both surfaces are pressed flat."""
    return np.asarray(effective_interference(interference, book.limits["roughness.loss"].value * UM))


def pressure_facts(pressed: Pressed, made: Collector) -> None:
    """Derive the pressure between part and bore at 20 C, at both ends of the riding range, and after years."""
    tight = mean_interference(pressed.candidate)
    inputs = ("fit.mean_interference",)
    now = pressures(pressed.stack, tight)[pressed.stack.seat]
    pressed.keep(made, "fit.pressure", now, *inputs)
    for fact, limit in (("fit.cold_pressure", "riding.coldest"), ("fit.hot_pressure", "riding.hottest")):
        values = pressures(pressed.stack, tight, pressed.limit(limit))[pressed.stack.seat]
        pressed.keep(made, fact, values, *inputs, f"limit:{limit}")
    later = long_term(pressed, now)
    limits = (f"limit:{each}" for each in CREEP) if pressed.candidate.material == "polymer" else ()
    pressed.keep(made, "fit.long_term_pressure", later, "fit.pressure", "opening.hold_left", *limits)


def long_term(pressed: Pressed, pressure: Array) -> Array:
    """Return what is left of a pressure (MPa) beside the openings, and in a polymer part after it has crept."""
    held = pressure * pressed.openings.hold
    if pressed.candidate.material != "polymer":
        return np.asarray(held)
    creep = even("part_modulus", *sorted(pressed.limit(each) for each in CREEP))
    return np.asarray(long_term_pressure(held, creep))
