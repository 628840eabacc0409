"""Strain a candidate puts into the shell: tension and compression round the bore, and beside its inboard edge."""

from collections.abc import Iterable
from functools import reduce

import numpy as np

from recommender.deriving.candidate import Array, widest_ovality
from recommender.deriving.collector import Collector
from recommender.deriving.frame import REFERENCE
from recommender.deriving.openings import FACTS as OPENINGS
from recommender.deriving.pressed import Pressed
from recommender.deriving.stack import Stack
from recommender.mechanics.openings import strains
from recommender.mechanics.strain import edge_bending_strain, ovality_bending_strain

MICROSTRAIN = 1e6
ENDS = ("riding.coldest", "riding.hottest")
FACTS = (
    "strain.tension", "strain.compression", "strain.worst_tension", "strain.edge_compression", "strain.behind_insert",
)  # fmt: skip


def strain_facts(pressed: Pressed, made: Collector) -> None:
    """Derive the largest strains of the shell at the tightest place: at 20 C, and in tension in heat or cold too."""
    inputs = ("fit.tightest_interference", "bore.ovality", *OPENINGS)
    tight = pressed.tightest
    bent = bending(pressed)
    now, worst = (
        strains(_hoop_over(pressed.stack, tight, each), bent, pressed.openings)
        for each in ([REFERENCE], [pressed.limit(end) for end in ENDS])
    )
    pressed.keep(made, "strain.tension", np.asarray(now.tension) * MICROSTRAIN, *inputs)
    pressed.keep(made, "strain.compression", np.asarray(now.compression) * MICROSTRAIN, *inputs)
    limits = (f"limit:{each}" for each in ENDS)
    pressed.keep(made, "strain.worst_tension", np.asarray(worst.tension) * MICROSTRAIN, *inputs, *limits)
    pressed.keep(made, "strain.edge_compression", _edge(pressed, tight) * MICROSTRAIN, inputs[0])
    _behind(pressed, bent, made, inputs)


def _behind(pressed: Pressed, bent: Array, made: Collector, inputs: tuple[str, ...]) -> None:
    if not pressed.stack.laminate_behind:
        made.unknown("strain.behind_insert", "no laminate lies behind metal here", "frame.insert")
        return
    hoop = behind_insert(pressed.stack, pressed.stack.pressures(pressed.tightest))
    strained = strains(hoop, bent, pressed.openings).tension
    pressed.keep(made, "strain.behind_insert", np.asarray(strained) * MICROSTRAIN, *inputs, "frame.insert")


def behind_insert(stack: Stack, found: list[Array]) -> Array:
    """Return the hoop strain (a ratio) of the laminate round metal that is bonded into it."""
    return np.maximum(found[-1], 0.0) * stack.strain_behind


def _hoop_over(stack: Stack, interference: Array, temperatures: Iterable[float]) -> Array:
    """Return the hoop strain of the shell (a ratio) at an interference (mm), the largest over some temperatures."""
    return reduce(np.maximum, [hoop_strain(stack, stack.pressures(interference, each)) for each in temperatures])


def hoop_strain(stack: Stack, found: list[Array]) -> Array:
    """Return the hoop strain (a ratio) of the ring round the part; one outside it backs it up."""
    at_seat = np.maximum(found[stack.seat], 0.0)
    if stack.seat + 1 < len(found):
        backed = np.clip(found[stack.seat + 1], 0.0, at_seat)
        return at_seat * stack.strain_inside + backed * stack.strain_outside
    return at_seat * stack.strain_alone


def bending(pressed: Pressed) -> Array:
    """Return the bending strain (a ratio, a size) of the shell's ovality pressed round."""
    shell, factor = pressed.stack.middle_shell, pressed.stack.bending_factor
    wall = float(shell.outer) - float(shell.inner)
    oval = widest_ovality(pressed.candidate)
    return np.asarray(ovality_bending_strain(oval, float(shell.inner) + wall / 2, wall, factor))


def _edge(pressed: Pressed, tight: Array) -> Array:
    """Return the axial compression (a ratio) of the shell just inboard of the part.

    A part that gives takes its share of the interference: what bends the edge is how far the shell has grown.
    """
    shell = pressed.stack.middle_shell
    grown = hoop_strain(pressed.stack, pressed.stack.pressures(np.maximum(tight, 0.0))) * 2 * float(shell.inner)
    return np.asarray(edge_bending_strain(grown, float(shell.inner) + float(shell.outer)))
