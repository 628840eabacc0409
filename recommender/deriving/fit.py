"""Interference, pressure and strain of a candidate."""

from collections.abc import Iterable

import numpy as np

from recommender.deriving.candidate import Array, Candidate, Form
from recommender.deriving.collector import Collector
from recommender.deriving.draws_of import even
from recommender.deriving.frame import REFERENCE
from recommender.deriving.stack import Stack
from recommender.mechanics.oval import bending_factor
from recommender.mechanics.rings import Ring, stack_pressures
from recommender.mechanics.seat import effective_interference
from recommender.mechanics.strain import ovality_bending_strain, shell_hoop_strain, total_strain
from recommender.rulebook.book import Rulebook

UM = 1e-3
MICROSTRAIN = 1e6
INTERFERENCE = ("fit.mean_interference", "fit.tightest_interference", "fit.loosest_interference", "compound.gap")
STRESSED = ("fit.pressure", "fit.cold_pressure", "fit.hot_pressure", "strain.tension", "strain.worst_tension")


def _lands(candidate: Candidate) -> list[tuple[Array, Form]]:
    assert candidate.ods is not None, "only a part of known diameter has a fit"
    return list(zip(candidate.ods, candidate.forms, strict=True))


def mean_interference(candidate: Candidate) -> Array:
    """Return part diameter minus mean bore diameter (mm); with two lands the looser one counts."""
    return np.asarray(np.min([od - form.mean for od, form in _lands(candidate)], axis=0))


def tightest_interference(candidate: Candidate) -> Array:
    """Return part diameter minus inscribed bore diameter (mm); with two lands the tighter one counts."""
    return np.asarray(np.max([od - form.inscribed for od, form in _lands(candidate)], axis=0))


def loosest_interference(candidate: Candidate) -> Array:
    """Return part diameter minus widest bore diameter (mm); with two lands the looser one counts."""
    return np.asarray(np.min([od - form.widest for od, form in _lands(candidate)], axis=0))


def interference_facts(candidate: Candidate, weights: Array, effective: float, made: Collector) -> None:
    """Derive the interference over the bore's form; unknown where the part's diameter is."""
    if candidate.ods is None:
        for fact in (*INTERFERENCE, *STRESSED):
            made.unknown(fact, candidate.why_unknown, *candidate.od_inputs)
        return
    mean = mean_interference(candidate) / UM
    numbers = (mean, tightest_interference(candidate) / UM, loosest_interference(candidate) / UM, -mean)
    bores = ("bore.mean_diameter", "bore.inscribed_diameter", "bore.widest_diameter", "bore.mean_diameter")
    for fact, values, bore in zip(INTERFERENCE, numbers, bores, strict=True):
        made.drawn(fact, values, weights, effective, (bore, "part.od"), candidate.assumed)


def pressures(candidate: Candidate, stack: Stack, temperature: float) -> list[Array]:
    """Return the pressure at every interface (MPa) at a temperature, the part fitted at its mean interference."""
    tight = mean_interference(candidate)
    return stack_pressures(
        stack.rings, stack.interferences(tight), temperature - REFERENCE, outermost_stiffening=stack.stiffening
    )  # type: ignore[return-value]


def effective_part_interference(interference: Array | float, book: Rulebook) -> Array:
    """Return the interference (mm) left once the peaks of both surfaces are pressed flat."""
    return np.asarray(effective_interference(interference, book.limits["roughness.loss"].value * UM))


def pressure_facts(
    candidate: Candidate, stack: Stack, book: Rulebook, weights: Array, effective: float, made: Collector
) -> None:
    """Derive the pressure between part and bore at 20 C and at both ends of the riding range."""
    coldest, hottest = book.limits["riding.coldest"].value, book.limits["riding.hottest"].value
    inputs = ("fit.mean_interference",)
    for fact, temperature, limit in (
        ("fit.pressure", REFERENCE, ()),
        ("fit.cold_pressure", coldest, ("limit:riding.coldest",)),
        ("fit.hot_pressure", hottest, ("limit:riding.hottest",)),
    ):
        values = pressures(candidate, stack, temperature)[stack.seat]
        made.drawn(fact, values, weights, effective, (*inputs, *limit), stack.wall_assumed)


def strain_facts(
    candidate: Candidate,
    stack: Stack,
    book: Rulebook,
    weights: Array,
    effective: float,
    made: Collector,
    port_near: bool | None,
) -> None:
    """Derive the largest tensile hoop strain of the shell at the tightest place, at 20 C and in the heat or cold."""
    inputs = ["fit.tightest_interference", "bore.ovality", "seat.port_near", "limit:opening.tension_factor"]
    ends = [book.limits[limit].value for limit in ("riding.coldest", "riding.hottest")]
    tight = tightest_interference(candidate)
    now = shell_strain(candidate, stack, book, tight, port_near, [REFERENCE])
    worst = shell_strain(candidate, stack, book, tight, port_near, ends)
    made.drawn("strain.tension", now * MICROSTRAIN, weights, effective, inputs, stack.wall_assumed)
    made.drawn(
        "strain.worst_tension",
        worst * MICROSTRAIN,
        weights,
        effective,
        (*inputs, "limit:riding.coldest", "limit:riding.hottest"),
        stack.wall_assumed,
    )


def shell_strain(
    candidate: Candidate,
    stack: Stack,
    book: Rulebook,
    interference: Array | float,
    port_near: bool | None,
    temperatures: Iterable[float],
) -> Array:
    """Return the tensile hoop strain of the shell (a ratio) at an interference (mm), at the worst temperature.

    An opening beside the seat multiplies it; where nobody knows of openings, anything from no opening to that
    factor is kept open.
    """
    worst = np.max([_seat_pressure(stack, interference, each) for each in temperatures], axis=0)
    shell = middle_ring(stack.shell)
    hoop = shell_hoop_strain(stack.shell, np.maximum(worst, 0.0), stack.stiffening)
    wall = float(shell.outer) - float(shell.inner)
    oval = np.max([form.ovality for form in candidate.forms], axis=0)
    bending = ovality_bending_strain(oval, float(shell.inner) + wall / 2, wall, bending_factor(shell))
    return np.asarray(total_strain(hoop, bending, _opening_factor(book, port_near)))


def middle_ring(ring: Ring) -> Ring:
    """Return a ring with the medians of its draws, for formulas that solve one ring at a time."""
    inner, outer, modulus, poisson, expansion = (
        float(np.median(each)) for each in (ring.inner, ring.outer, ring.modulus, ring.poisson, ring.expansion)
    )
    return Ring(inner, outer, modulus, poisson, expansion)


def _seat_pressure(stack: Stack, interference: Array | float, temperature: float) -> Array:
    found = stack_pressures(
        stack.rings, stack.interferences(interference), temperature - REFERENCE, outermost_stiffening=stack.stiffening
    )
    return np.asarray(found[stack.seat])


def _opening_factor(book: Rulebook, port_near: bool | None) -> Array | float:
    factor = book.limits["opening.tension_factor"].value
    if port_near is None:
        return even("seat_fit", 1.0, factor)
    return factor if port_near else 1.0
