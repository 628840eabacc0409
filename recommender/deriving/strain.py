"""Strain a candidate puts into the shell: tension and compression round the bore, and beside its inboard edge."""

from collections.abc import Iterable

import numpy as np

from recommender.deriving.candidate import Array
from recommender.deriving.collector import Collector
from recommender.deriving.fit import pressures, tightest_interference
from recommender.deriving.frame import REFERENCE
from recommender.deriving.openings import FACTS as OPENINGS
from recommender.deriving.pressed import Pressed
from recommender.deriving.stack import Stack
from recommender.mechanics.openings import Strains, strains
from recommender.mechanics.oval import bending_factor
from recommender.mechanics.rings import Ring, hoop_strain_at_bore
from recommender.mechanics.strain import edge_bending_strain, ovality_bending_strain, shell_hoop_strain

MICROSTRAIN = 1e6
ENDS = ("riding.coldest", "riding.hottest")
FACTS = ("strain.tension", "strain.compression", "strain.worst_tension", "strain.edge_compression")


def strain_facts(pressed: Pressed, made: Collector) -> None:
    """Derive the largest strains of the shell at the tightest place: at 20 C, and in tension in heat or cold too."""
    inputs = ("fit.tightest_interference", "bore.ovality", *OPENINGS)
    tight = tightest_interference(pressed.candidate)
    now = shell_strains(pressed, tight, [REFERENCE])
    worst = shell_strains(pressed, tight, [pressed.limit(each) for each in ENDS])
    pressed.keep(made, "strain.tension", np.asarray(now.tension) * MICROSTRAIN, *inputs)
    pressed.keep(made, "strain.compression", np.asarray(now.compression) * MICROSTRAIN, *inputs)
    limits = (f"limit:{each}" for each in ENDS)
    pressed.keep(made, "strain.worst_tension", np.asarray(worst.tension) * MICROSTRAIN, *inputs, *limits)
    pressed.keep(made, "strain.edge_compression", _edge(pressed, tight) * MICROSTRAIN, inputs[0])


def shell_strains(pressed: Pressed, interference: Array | float, temperatures: Iterable[float]) -> Strains:
    """Return the largest strains of the shell (ratios) at an interference (mm), at the worst of some temperatures."""
    hoops = [hoop_strain(pressed.stack, pressures(pressed.stack, interference, each)) for each in temperatures]
    return strains(np.asarray(np.max(hoops, axis=0)), bending(pressed), pressed.openings)


def hoop_strain(stack: Stack, found: list[Array]) -> Array:
    """Return the hoop strain (a ratio) of the ring round the part; one outside it backs it up."""
    at_seat = np.maximum(found[stack.seat], 0.0)
    if stack.seat + 1 < len(found):
        backed = np.clip(found[stack.seat + 1], 0.0, at_seat)
        return np.asarray(hoop_strain_at_bore(stack.shell, at_seat, backed))
    return np.asarray(shell_hoop_strain(stack.shell, at_seat, stack.stiffening))


def bending(pressed: Pressed) -> Array:
    """Return the bending strain (a ratio, a size) of the shell's ovality pressed round."""
    shell = middle_ring(pressed.stack.shell)
    wall = float(shell.outer) - float(shell.inner)
    oval = np.max([form.ovality for form in pressed.candidate.forms], axis=0)
    return np.asarray(ovality_bending_strain(oval, float(shell.inner) + wall / 2, wall, bending_factor(shell)))


def middle_ring(ring: Ring) -> Ring:
    """Return a ring with the medians of its draws, for formulas that solve one ring at a time."""
    inner, outer, modulus, poisson, expansion = (
        float(np.median(each)) for each in (ring.inner, ring.outer, ring.modulus, ring.poisson, ring.expansion)
    )
    return Ring(inner, outer, modulus, poisson, expansion)


def _edge(pressed: Pressed, tight: Array) -> Array:
    """Return the axial compression (a ratio) of the shell just inboard of the part.

    A part that gives takes its share of the interference: what bends the edge is how far the shell has grown.
    """
    found = pressures(pressed.stack, np.maximum(tight, 0.0))
    grown = hoop_strain(pressed.stack, found) * 2 * float(np.median(pressed.stack.shell.inner))
    shell = middle_ring(pressed.stack.shell)
    return np.asarray(edge_bending_strain(grown, float(shell.inner) + float(shell.outer)))
