"""The uncertainty budget of one bore's mean diameter: what contributes how much, and what it can decide.

GUM (JCGM 100) 5.1 and annex G: linear propagation through the weighted least squares estimate. What no reading saw
enters as the deviation assumed for it, so the parts add up to the variance of the posterior.
"""

from collections.abc import Iterator, Mapping
from math import inf, sqrt
from typing import Literal, NamedTuple

import numpy as np

from recommender.metrology.budget import Contribution, combined
from recommender.metrology.model import posterior, whiten
from recommender.metrology.normal import Array
from recommender.metrology.rows import BOW, FIVE_LOBES, SIZE, TAPER, THREE_LOBES, TWO_LOBES, UNKNOWNS, Row, rows
from recommender.metrology.sheet import Sheet, spans
from recommender.metrology.student import coverage_factor

Distribution = Literal["normal", "rectangular"]
LEVEL = 0.95
BOW_SHARE = 2 / 3
GUARD = 1.645
FORMS: Mapping[str, tuple[int, ...]] = {
    "taper not seen": (TAPER,), "two lobes not seen": TWO_LOBES, "three lobes not seen": THREE_LOBES,
    "five lobes not seen": FIVE_LOBES, "bow of the wall": (BOW,),
}


class Part(NamedTuple):
    """One source behind an error: its standard uncertainty (mm), distribution and degrees of freedom."""

    name: str
    u: float
    distribution: Distribution = "normal"
    degrees: float = inf


class Line(NamedTuple):
    """One line of a budget: `u` of the source and `share`, what it adds to the standard uncertainty of the result, mm.

    `sensitivity` is share over u; `instrument` is empty where the source belongs to none.
    """

    name: str
    instrument: str
    distribution: Distribution
    u: float
    sensitivity: float
    share: float
    degrees: float


class SideBudget(NamedTuple):
    """The budget of the mean diameter: lines, combined and expanded uncertainty (mm), degrees of freedom, factor."""

    value: float
    lines: tuple[Line, ...]
    u: float
    degrees: float
    factor: float
    expanded: float


class Capability(NamedTuple):
    """Band of the limits over four standard uncertainties (JCGM 106, 7.6), and whether it can ever decide.

    `provable` is the width (mm) of the band in which a size can be proved conforming at 95 %; none is left where the
    instruments cannot decide this bore.
    """

    ratio: float
    provable: float

    @property
    def decides(self) -> bool:
        """Return whether any size can be proved inside the limits."""
        return self.provable > 0


def side_budget(
    sheet: Sheet, parts: Mapping[str, tuple[Part, ...]] | None = None, level: float = LEVEL
) -> SideBudget:
    """Return the budget of the mean diameter over the seat; raises ValueError where nothing was read.

    `parts` splits an error into its sources, adding up in squares: keys are `own INSTRUMENT` for the error each reading
    has by itself, else the name of a shared error. An error not split stands as one normal source.
    """
    found, made = posterior(sheet), rows(sheet)
    asked = np.zeros(UNKNOWNS)
    asked[SIZE], asked[BOW] = 1.0, BOW_SHARE
    white = whiten(made)
    weights = asked @ found.covariance @ white.design.T @ white.undo
    lines = [*_own(sheet, made, weights, parts or {}), *_shared(made, weights, parts or {}),
             *_unseen(asked @ found.covariance, found.prior_sd)]
    total = combined([Contribution(each.name, each.share, 1.0, each.degrees) for each in lines])
    factor = coverage_factor(total.degrees, level)
    return SideBudget(float(asked @ found.mean), tuple(lines), total.u, total.degrees, factor, factor * total.u)


def capability(u: float, lower: float, upper: float) -> Capability:
    """Return what a standard uncertainty can decide between two limits (mm); ValueError unless u is above zero."""
    if u <= 0:
        raise ValueError("a standard uncertainty is above zero")
    return Capability((upper - lower) / (4 * u), max(0.0, upper - lower - 2 * GUARD * u))


def _own(
    sheet: Sheet, made: tuple[Row, ...], weights: Array, parts: Mapping[str, tuple[Part, ...]]
) -> Iterator[Line]:
    """Yield the lines of the errors each reading has by itself, by instrument; they add in squares."""
    sources = [(each.instrument, each.u) for each in sheet.readings]
    sources += [(each.instrument, each.u) for each in spans(sheet)]
    sources += [(each.instrument, each.u) for each in sheet.scans]
    names = sorted({sources[row.source][0] for row in made})
    for name in names:
        mine = [(row, weight, sources[row.source][1]) for row, weight in zip(made, weights, strict=True)
                if sources[row.source][0] == name]
        u = max(each for _, _, each in mine)
        reading = sqrt(sum(weight**2 * min(row.variance, each**2) for row, weight, each in mine))
        form = sqrt(sum(weight**2 * max(0.0, row.variance - each**2) for row, weight, each in mine))
        yield from _split(name, reading, parts.get(f"own {name}", (Part("reading", u),)))
        if form > 0:
            sections = {each.instrument for each in sheet.scans}
            sections |= {each.instrument for each in sheet.spans if each.full_turn}
            what = "sections beside one form" if name in sections else "form at turns not recorded"
            yield Line(what, name, "normal", form, 1.0, form, inf)


def _shared(made: tuple[Row, ...], weights: Array, parts: Mapping[str, tuple[Part, ...]]) -> Iterator[Line]:
    """Yield the lines of errors several readings have in common; they add before they are squared."""
    for name in sorted({name for row in made for name, _ in row.shared}):
        doubts = [sum(u for each, u in row.shared if each == name) for row in made]
        share = abs(float(weights @ np.array(doubts)))
        alone = max(u / max(1.0, row.coefficients[SIZE]) for u, row in zip(doubts, made, strict=True))
        owner = name.partition(" ")[2]
        yield from _split(owner, share, parts.get(name, (Part(name.partition(" ")[0], alone),)))


def _split(instrument: str, share: float, parts: tuple[Part, ...]) -> Iterator[Line]:
    whole = sqrt(sum(part.u**2 for part in parts))
    for part in parts:
        if part.u > 0:
            sensitivity = share / whole
            yield Line(part.name, instrument, part.distribution, part.u, sensitivity, sensitivity * part.u,
                       part.degrees)


def _unseen(towards: Array, prior_sd: Array) -> Iterator[Line]:
    for name, places in FORMS.items():
        group = list(places)
        sensitivity = sqrt(float(np.sum((towards[group] / prior_sd[group] ** 2) ** 2)))
        u = float(prior_sd[places[0]])
        if sensitivity * u > 0:
            yield Line(name, "", "normal", u, sensitivity, sensitivity * u, inf)
