"""Interference and pressure of a candidate."""

import numpy as np

from recommender.deriving.candidate import Array, loosest_interference
from recommender.deriving.collector import Collector
from recommender.deriving.pressed import CREEP, UM, Pressed
from recommender.mechanics.seat import effective_interference
from recommender.rulebook.book import Rulebook

INTERFERENCE = ("fit.mean_interference", "fit.tightest_interference", "fit.loosest_interference", "compound.gap")
PRESSURES = ("fit.pressure", "fit.cold_pressure", "fit.hot_pressure", "fit.long_term_pressure")


def interference_facts(pressed: Pressed, made: Collector) -> None:
    """Derive the interference over the bore's form."""
    by, assumed = pressed.by, pressed.candidate.assumed
    mean = by.summary(pressed.mean).times(1 / UM)
    made.summed("fit.mean_interference", mean, ("bore.mean_diameter", "part.od"), assumed)
    tightest, loosest = pressed.tightest / UM, loosest_interference(pressed.candidate) / UM
    made.drawn("fit.tightest_interference", tightest, by, ("bore.inscribed_diameter", "part.od"), assumed)
    made.drawn("fit.loosest_interference", loosest, by, ("bore.widest_diameter", "part.od"), assumed)
    made.summed("compound.gap", mean.times(-1), ("bore.mean_diameter", "part.od"), assumed)


def effective_part_interference(interference: Array | float, book: Rulebook) -> Array:
    """Return the interference (mm) left once the peaks of both surfaces are pressed flat."""
    return np.asarray(effective_interference(interference, book.limits["roughness.loss"].value * UM))


def pressure_facts(pressed: Pressed, made: Collector) -> None:
    """Derive the pressure between part and bore at 20 C, at both ends of the riding range, and after years."""
    inputs = ("fit.mean_interference", "frame.layup_known")
    pressed.summed(made, "fit.pressure", pressed.by.summary(pressed.pressure), *inputs)
    for fact, limit in (("fit.cold_pressure", "riding.coldest"), ("fit.hot_pressure", "riding.hottest")):
        values = pressed.stack.pressures(pressed.mean, pressed.limit(limit))[pressed.stack.seat]
        pressed.keep(made, fact, values, *inputs, f"limit:{limit}")
    later = pressed.by.summary(pressed.long_term)
    limits = (f"limit:{each}" for each in CREEP) if pressed.candidate.material == "polymer" else ()
    pressed.summed(made, "fit.long_term_pressure", later, "fit.pressure", "opening.hold_left", *limits)
