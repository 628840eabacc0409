"""The diameter of a measured part at 20 C, with the doubt of gauge, temperature and of how it was measured."""

from math import hypot, sqrt
from typing import NamedTuple

import numpy as np

from recommender.bench.case import Case
from recommender.bench.parts import Part as PartInHand
from recommender.bench.quantities import MeasuredSize
from recommender.deriving.draws_of import Array, even, normal
from recommender.deriving.spreads import COVERAGE, scalar_spread
from recommender.mechanics.bearing import mean_raceway_diameter
from recommender.mechanics.rings import Ring, outside_cross_compliance, stack_pressures
from recommender.metrology.temperature import REFERENCE, corrected, correction_uncertainty
from recommender.rulebook.book import Part, Range, Rulebook

RECTANGLE = sqrt(3.0)


class Expansion(NamedTuple):
    """How much the outside of a part grows per K, as a share of its diameter, and the half-width of its range."""

    value: float
    half: float


def diameter_at_20(od: MeasuredSize, given: PartInHand, part: Part, material: str, case: Case, book: Rulebook) -> Array:
    """Return draws of a part's outside diameter in mm at 20 C.

    A part without a temperature of its own lay with the frame, and so did the gauge it was read with. A cup of
    which nobody knows whether its bearing was in may still be widened by it.
    """
    spread = scalar_spread(od, "part_od", case, book)
    grows = expansion_of(part, material, od.value, book)
    steel = book.materials["steel"].expansion
    warm, gauge, doubt = _temperatures(given, case, book)
    at_20 = corrected(od.value, warm, gauge, grows.value, steel.value)
    u = correction_uncertainty(
        od.value, warm, gauge, grows.value, steel.value,
        u_alpha_frame=grows.half / RECTANGLE, u_alpha_instrument=_half(steel) / RECTANGLE,
        u_frame_temperature=doubt, u_instrument_temperature=doubt,
    )  # fmt: skip
    drawn = normal("part_od", at_20, hypot(spread.u, u))
    if part.kind == "cup" and given.bearing_fitted == "unknown":
        return np.asarray(drawn + even("seat_fit", 0.0, widened_by_bearing(part, material, od.value, book)))
    return drawn


def expansion_of(part: Part, material: str, od: float, book: Rulebook) -> Expansion:
    """Return the expansion of a part's outside: a cup on its bearing's ring follows it in part (thick cylinders)."""
    own = book.materials[material].expansion
    if part.kind == "bearing":
        ring = book.materials["bearing_steel"].expansion
        return Expansion(ring.value, _half(ring))
    rings = _cup_on_bearing(part, material, od, book)
    if rings is None:
        return Expansion(own.value, _half(own))
    pressure = float(stack_pressures(rings, [0.0], 1.0)[0])
    free = own.value + float(2 * outside_cross_compliance(rings[1]) * pressure / od)
    return Expansion(free, _half(own) * free / own.value)


def widened_by_bearing(part: Part, material: str, od: float, book: Rulebook) -> float:
    """Return by how much the tightest bearing widens a cup, on its outside diameter in mm; nothing is known: 0."""
    rings = _cup_on_bearing(part, material, od, book)
    if rings is None or part.seat_interference is None:
        return 0.0
    pressure = float(stack_pressures(rings, [max(part.seat_interference[1], 0.0)])[0])
    return float(2 * outside_cross_compliance(rings[1]) * pressure)


def _cup_on_bearing(part: Part, material: str, od: float, book: Rulebook) -> tuple[Ring, Ring] | None:
    """Return the bearing's outer ring and the cup round it, None where the cup has no wall left on its seat."""
    bearing = book.bearings[part.bearing]
    if od <= bearing.outer:
        return None
    ring, cup = book.materials["bearing_steel"], book.materials[material]
    raceway = float(mean_raceway_diameter(bearing.inner, bearing.outer))
    return (
        Ring(raceway / 2, bearing.outer / 2, ring.modulus.value, ring.poisson, ring.expansion.value),
        Ring(bearing.outer / 2, od / 2, cup.modulus.value, cup.poisson, cup.expansion.value),
    )


def _temperatures(given: PartInHand, case: Case, book: Rulebook) -> tuple[float, float, float]:
    """Return the temperatures of part and gauge in degC and their standard uncertainty in K."""
    bench = case.bench.frame_temperature
    stated = given.temperature or bench
    around = REFERENCE if bench is None else bench.value
    doubt = book.spreads["temperature"].value / COVERAGE
    if stated is None:
        return around, around, doubt
    by = case.bench.instrument(given.od.by) if given.od is not None and given.od.by else None
    gauge = around if by is None or by.temperature is None else by.temperature.value
    return stated.value, gauge, scalar_spread(stated, "temperature", case, book).u


def _half(span: Range) -> float:
    return (span.high - span.low) / 2
