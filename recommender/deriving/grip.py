"""How hard the seat can be pedalled before it starts to gap."""

import numpy as np

from recommender.bench.case import Case
from recommender.deriving.alignment import seat_span
from recommender.deriving.candidate import Array, Candidate
from recommender.deriving.collector import Collector
from recommender.deriving.fit import pressures
from recommender.deriving.frame import REFERENCE
from recommender.deriving.stack import Stack
from recommender.mechanics.grip import drive_side_load, gap_starts_at, push_in_force
from recommender.rulebook.book import Rulebook

FRICTION = ("friction.least", "friction.greatest")
LIMITS = ("pedalling.outboard", "pedalling.crank", "pedalling.teeth", "pedalling.chain_line")


def grip_facts(
    candidate: Candidate,
    stack: Stack,
    case: Case,
    book: Rulebook,
    length: float,
    weights: Array,
    effective: float,
    made: Collector,
) -> None:
    """Derive the pedal force at which the seat starts to gap, from the pressure and the statics of the cranks."""
    span = seat_span(case)
    if span is None:
        made.unknown("grip.gaps_at", "shell width or seat depth is missing")
        return
    outboard, crank, teeth, chain_line = (book.limits[each].value for each in LIMITS)
    load = drive_side_load(1.0, outboard, span, crank, round(teeth), chain_line)
    pressure = pressures(candidate, stack, REFERENCE)[stack.seat]
    radius = float(np.median(candidate.forms[0].mean)) / 2
    force = gap_starts_at(pressure, load, radius, length)
    inputs = ("fit.pressure", "frame.width_difference", *(f"limit:{each}" for each in LIMITS))
    made.drawn("grip.gaps_at", np.asarray(force), weights, effective, inputs, stack.wall_assumed)


def press_force(candidate: Candidate, stack: Stack, book: Rulebook, length: float) -> tuple[float, float] | None:
    """Return the force (N) the press is forecast to need at the end of its way; None where the part is loose."""
    pressure = np.quantile(pressures(candidate, stack, REFERENCE)[stack.seat], (0.025, 0.975))
    if pressure[1] <= 0:
        return None
    diameter = float(np.median(candidate.forms[0].mean))
    low, high = (
        float(push_in_force(max(each, 0.0), book.limits[friction].value, diameter, length))
        for each, friction in zip(pressure, FRICTION, strict=True)
    )
    return round(low, -1), round(high, -1)
