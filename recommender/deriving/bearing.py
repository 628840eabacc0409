"""What a candidate does to its bearing: interference and stress on the outer ring, and the clearance left."""

import numpy as np

from recommender.deriving.candidate import Array, Candidate
from recommender.deriving.collector import Collector
from recommender.deriving.draws_of import even
from recommender.deriving.fit import UM, effective_part_interference, middle_ring, tightest_interference
from recommender.deriving.stack import Stack
from recommender.mechanics.bearing import clearance_left, closure_factor, oval_loss, ring_hoop_stress
from recommender.mechanics.oval import share_of_race
from recommender.mechanics.rings import Ring, pressures_per_mm, stack_pressures
from recommender.rulebook.book import Bearing, Rulebook

FACTS = ("bearing.ring_interference", "bearing.ring_stress", "bearing.clearance_left")


def bearing_facts(
    candidate: Candidate, stack: Stack, book: Rulebook, weights: Array, effective: float, made: Collector
) -> None:
    """Derive what pressing does to the bearing's outer ring; the clearance is that of the largest class sold."""
    bearing = book.bearings[candidate.part.bearing]
    inputs = ("fit.tightest_interference", "limit:roughness.loss", f"part:{candidate.part.id}")
    tight = np.maximum(effective_part_interference(tightest_interference(candidate), book), 0.0)
    stress = -ring_hoop_stress(stack.bearing_ring, ring_pressure(candidate, stack, tight))
    made.drawn("bearing.ring_stress", np.asarray(stress), weights, effective, inputs, stack.wall_assumed)
    if candidate.part.kind == "bearing":
        made.drawn("bearing.ring_interference", tightest_interference(candidate) / UM, weights, effective, inputs)
    else:
        made.unknown("bearing.ring_interference", "the bearing sits in a cup, not in the shell", inputs[-1])
    left = _clearance(candidate, stack, bearing, book)
    made.drawn("bearing.clearance_left", left / UM, weights, effective, (*inputs, "bore.ovality"), stack.wall_assumed)


def ring_pressure(candidate: Candidate, stack: Stack, interference: Array | float) -> Array:
    """Return the pressure round the bearing's outer ring (MPa): from the part in the bore, plus its seat in the cup."""
    found = stack_pressures(stack.rings, stack.interferences(interference), outermost_stiffening=stack.stiffening)
    return np.asarray(np.maximum(np.asarray(found[0]), 0.0) + _cup_pressure(candidate, stack))


def largest_class(bearing: Bearing) -> tuple[float, float]:
    """Return the radial clearance band (mm) of the largest class sold for a bearing."""
    return max((bearing.clearance[each] for each in bearing.sold), key=lambda band: band[1])


def _cup_pressure(candidate: Candidate, stack: Stack) -> Array | float:
    band = candidate.part.seat_interference
    if candidate.part.kind == "bearing" or band is None:
        return 0.0
    return np.asarray(stack_pressures(stack.rings[:2], [even("seat_fit", *band)])[0])


def _clearance(candidate: Candidate, stack: Stack, bearing: Bearing, book: Rulebook) -> Array:
    low, high = largest_class(bearing)
    per_mm = pressures_per_mm(_to_seat(stack), outermost_stiffening=stack.stiffening)[0]
    closing = closure_factor(stack.bearing_ring, per_mm)
    left = effective_part_interference(tightest_interference(candidate), book)
    band = candidate.part.seat_interference
    in_cup, seat_closing = 0.0, 0.0
    if candidate.part.kind == "cup" and band is not None:
        in_cup = even("seat_fit", *band)  # type: ignore[assignment]
        seat_closing = closure_factor(stack.bearing_ring, pressures_per_mm(stack.rings[:2])[0])  # type: ignore[assignment]
    oval = np.max([form.ovality for form in candidate.forms], axis=0)
    taken = oval_loss(oval, _race_share(stack))
    return np.asarray(clearance_left(even("clearance", low, high), closing, left, seat_closing, in_cup, taken))


def _to_seat(stack: Stack) -> tuple[Ring, ...]:
    """Return the rings with everything outside the part's seat as one ring, so that the seat is the last interface."""
    shell = stack.shell
    outside = stack.rings[-1].outer
    one = Ring(shell.inner, outside, shell.modulus, shell.poisson, shell.expansion)
    return (*stack.rings[: stack.seat + 1], one)


def _race_share(stack: Stack) -> float:
    return float(share_of_race([middle_ring(ring) for ring in _to_seat(stack)]))
