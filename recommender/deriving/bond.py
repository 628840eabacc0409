"""What holds a bonded sleeve: shear of the bond against the axial load of riding, and the pull on it in the cold."""

import numpy as np

from recommender.deriving.collector import Collector
from recommender.deriving.frame import REFERENCE
from recommender.deriving.pressed import Pressed
from recommender.mechanics.bond import axial_strength, peel_stress

FACTS = ("bond.shear_reserve", "bond.peel_in_cold")


def bond_facts(pressed: Pressed, made: Collector) -> None:
    """Derive the reserves of a sleeve's bond; only a candidate with a sleeve has one."""
    make = pressed.candidate.make
    if make is None or make.sleeve is None:
        return
    outside = sum(make.sleeve["od_mm"]) / 2
    strength = axial_strength(pressed.limit("bond.design_strength"), outside, pressed.length)
    limits = ("limit:bond.design_strength", "limit:riding.axial_load")
    made.exact("bond.shear_reserve", float(strength) / pressed.limit("riding.axial_load"), "cut.bore", *limits)
    around = pressed.stack.rings[pressed.stack.seat + 1 :]
    pull = peel_stress(around, pressed.limit("riding.coldest") - REFERENCE)
    draws = np.broadcast_to(np.asarray(pull), pressed.by.weights.shape)
    pressed.keep(made, "bond.peel_in_cold", draws, "cut.bore", "limit:riding.coldest")
