"""What a candidate does to its bearing: interference and stress on the outer ring, clearance left, class to order."""

from typing import NamedTuple

import numpy as np

from recommender.deriving.candidate import Array, widest_ovality
from recommender.deriving.collector import Collector
from recommender.deriving.draws_of import even
from recommender.deriving.fit import effective_part_interference
from recommender.deriving.frame import REFERENCE
from recommender.deriving.pressed import UM, Pressed
from recommender.mechanics.bearing import clearance_left, oval_loss, ring_hoop_stress
from recommender.mechanics.clearance import Band, ClassLeft, class_for
from recommender.mechanics.rings import bore_closure
from recommender.rulebook.book import Bearing

FACTS = (
    "bearing.ring_interference",
    "bearing.ring_stress",
    "bearing.clearance_left",
    "bearing.class",
    "bearing.class_clearance_left",
)
ENDS = ("riding.coldest", "riding.hottest")
WANTED = ("bearing.clearance_least", "bearing.clearance_most")


class Closing(NamedTuple):
    """What closes a bearing (mm): per mm of interference in the bore, by its seat in a cup, by an oval bore."""

    per_mm: Array
    in_cup: Array | float
    oval: Array


def bearing_facts(pressed: Pressed, made: Collector) -> tuple[ClassLeft, ...]:
    """Derive what pressing does to the bearing; return its clearance classes, the one to order first.

    `bearing.clearance_left` is that of the class in hand, else of the largest class sold: only where that one is gone
    is a part barred.
    """
    candidate = pressed.candidate
    inputs = ("fit.tightest_interference", "limit:roughness.loss", f"part:{candidate.part.id}")
    tight = np.maximum(effective_part_interference(pressed.tightest, pressed.book), 0.0)
    pressed.keep(made, "bearing.ring_stress", ring_stress(pressed, tight), *inputs)
    if candidate.part.kind == "bearing":
        pressed.drawn(made, FACTS[0], pressed.tightest / UM, inputs, assumed=False)
    else:
        made.unknown("bearing.ring_interference", "the bearing sits in a cup, not in the shell", inputs[-1])
    pressed.keep(
        made, "bearing.clearance_left", _left(pressed) / UM, *inputs, "part.clearance_class", "bore.ovality"
    )
    return _class_facts(pressed, made, inputs)


def bearing_of(pressed: Pressed) -> Bearing:
    """Return the bearing that a candidate carries or is."""
    return pressed.book.bearings[pressed.candidate.part.bearing]


def ring_stress(pressed: Pressed, interference: Array | float) -> Array:
    """Return the compressive hoop stress of the bearing's outer ring (MPa) at an interference of the seat (mm)."""
    return -np.asarray(ring_hoop_stress(pressed.stack.bearing_ring, ring_pressure(pressed, interference)))


def ring_pressure(pressed: Pressed, interference: Array | float, temperature: float = REFERENCE) -> Array:
    """Return the pressure round the bearing's outer ring (MPa): from the part in the bore, plus its seat in the cup."""
    at_ring = pressed.stack.pressures(interference, temperature)[0]
    if temperature == REFERENCE:
        return np.asarray(np.maximum(at_ring, 0.0) + pressed.stack.cup_pressure)
    return np.asarray(np.maximum(at_ring + pressed.stack.cup_pressure, 0.0))


def classes_of(pressed: Pressed) -> dict[str, Band]:
    """Return the radial clearance (mm) of each class to choose from, tightest first: the one in hand, else all sold."""
    bearing, in_hand = bearing_of(pressed), pressed.candidate.clearance_class
    known = (in_hand,) if in_hand else bearing.sold
    return {each: Band(*bearing.clearance[each]) for each in sorted(known, key=bearing.clearance.__getitem__)}


def closing(pressed: Pressed) -> Closing:
    """Return what closes the bearing of a candidate."""
    stack = pressed.stack
    oval = oval_loss(widest_ovality(pressed.candidate), stack.race_share)
    return Closing(stack.closing_per_mm, stack.closed_by_cup, np.asarray(oval))


def clearance_before(pressed: Pressed) -> Array:
    """Return draws of the clearance (mm) before pressing: of the class in hand, else of the largest sold."""
    return even("clearance", *max(classes_of(pressed).values(), key=lambda band: band.greatest))


def _left(pressed: Pressed) -> Array:
    found = closing(pressed)
    tight = effective_part_interference(pressed.tightest, pressed.book)
    taken = found.in_cup + found.oval
    return np.asarray(clearance_left(clearance_before(pressed), found.per_mm, tight, oval_loss=taken))


def _class_facts(pressed: Pressed, made: Collector, inputs: tuple[str, ...]) -> tuple[ClassLeft, ...]:
    wanted = Band(*(pressed.limit(each) * UM for each in WANTED))
    classes = class_for(classes_of(pressed), loss_over_the_range(pressed), wanted)
    limits = tuple(f"limit:{each}" for each in (*WANTED, *ENDS))
    made.word("bearing.class", classes[0].name, "part.clearance_class", *inputs, "bore.ovality", *limits)
    low, high = (end / UM for end in classes[0].left)
    made.between("bearing.class_clearance_left", (low + high) / 2, low, high, "bearing.class", *inputs, *limits)
    return classes


def loss_over_the_range(pressed: Pressed) -> Band:
    """Return the band of clearance (mm) that pressing takes, between the ends of the riding range."""
    tight = np.maximum(effective_part_interference(pressed.tightest, pressed.book), 0.0)
    oval = closing(pressed).oval
    closed = bore_closure(pressed.stack.bearing_ring, 0.0, 1.0)
    temperatures = (REFERENCE, *(pressed.limit(each) for each in ENDS))
    taken = [closed * ring_pressure(pressed, tight, each) + oval for each in temperatures]
    spans = [pressed.by.once(np.asarray(each)) for each in taken]
    return Band(min(each.low for each in spans), max(each.high for each in spans))
