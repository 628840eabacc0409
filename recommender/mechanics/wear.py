"""How much of a bore's slack a cup could have worn, at most.

Source: linear wear law (depth = wear factor x pressure x slip); the two bounds are derived from it. Wear
factors are in mm3/(N m), as ASTM D3702 reports them; lengths are in mm.
"""

import math

import numpy as np

from recommender.mechanics.amount import Amount, require_not_negative, require_positive

M_PER_MM = 1e-3


def worn_depth(wear_factor: Amount, pressure: Amount, slip: Amount) -> Amount:
    """Return the depth worn (mm) at a pressure (MPa) over a slip (m)."""
    require_not_negative(wear_factor=wear_factor)
    return wear_factor * pressure * slip


def micro_slip_depth(wear_factor: Amount, pressure: Amount, stroke: Amount, loads: Amount) -> Amount:
    """Return the depth (mm) worn by a cup that rubs `stroke` (mm) there and back at each pedal load."""
    return worn_depth(wear_factor, pressure, 2 * stroke * loads * M_PER_MM)


def creep_volume(wear_factor: Amount, load: Amount, slack: Amount, turns: Amount) -> Amount:
    """Return the volume (mm3) worn off while a cup rolls round inside its bore.

    `slack` (mm) is on diameter; each turn of the load (N) slips by its circumference.
    """
    require_not_negative(wear_factor=wear_factor, slack=slack)
    return wear_factor * load * math.pi * slack * turns * M_PER_MM


def creep_depth(
    wear_factor: Amount, load: Amount, slack: Amount, turns: Amount, diameter: Amount, length: Amount
) -> Amount:
    """Return the radial depth (mm) worn all round while a cup rolls round inside its bore."""
    require_positive(diameter=diameter, length=length)
    return creep_volume(wear_factor, load, slack, turns) / (math.pi * diameter * length)


def turns_to_grow(
    wear_factor: Amount, load: Amount, diameter: Amount, length: Amount, slack_from: Amount, slack_to: Amount
) -> Amount:
    """Return how many turns of the load creep takes to widen a slack from one value to another (mm)."""
    require_positive(wear_factor=wear_factor, load=load, slack_from=slack_from, slack_to=slack_to)
    per_turn = 2 * M_PER_MM * wear_factor * load / (diameter * length)
    return np.log(slack_to / slack_from) / per_turn
