"""Size and form of a bore with its uncertainty: weighted linear model with normal priors for what was not seen."""

from typing import NamedTuple

import numpy as np

from recommender.metrology.normal import Array
from recommender.metrology.rows import (
    BOW,
    FIVE_LOBES,
    SIZE,
    TAPER,
    THREE_LOBES,
    TWO_LOBES,
    UNKNOWNS,
    Row,
    rows,
)
from recommender.metrology.sheet import Assumptions, Sheet, spans

ROUNDS = 8
# So many of the assumptions, from the first, may not be nothing.
ALWAYS = Assumptions._fields.index("section_sd")
GROUPS = ((TAPER,), TWO_LOBES, THREE_LOBES, FIVE_LOBES, (BOW,))
# Chosen in the coverage study: the least with which bores twice as bad as assumed are held in 92 %.
CAUTION = 1.3
SEEN = 0.5


class Posterior(NamedTuple):
    """Mean (9,) and covariance (9, 9) of the unknowns of `rows`, and the prior deviations (9,) used, size diffuse."""

    mean: Array
    covariance: Array
    prior_sd: Array


class Whitened(NamedTuple):
    """Design (n, 9) and values (n,) about a reference size (mm), times `undo` (n, n): errors of 1, independent."""

    design: Array
    values: Array
    reference: float
    undo: Array


def posterior(sheet: Sheet) -> Posterior:
    """Return size and form given the readings and spans; raises ValueError where nothing was read.

    Weighted least squares with a full covariance; instrument, ring and temperature errors enter as shared. The
    diameter has no prior; form has the assumed one. Where readings show more form than assumed, the assumption is
    widened to what they show (empirical Bayes), so it neither shrinks what was seen nor stays narrow for the part of
    the same form that was not. A bore worse than assumed in what was seen is taken to be as much worse in five lobes
    and bow, which are hardly ever seen.
    """
    found = whiten(rows(sheet))
    floor = _floor(sheet)
    information = found.design.T @ found.design
    evidence = found.design.T @ found.values
    prior_sd = floor
    mean, covariance = _solve(information, evidence, prior_sd)
    for _ in range(ROUNDS):
        wider = _widened(mean, _worsened(mean, covariance, prior_sd, floor))
        if np.array_equal(wider, prior_sd):
            break
        prior_sd = wider
        mean, covariance = _solve(information, evidence, prior_sd)
    mean[SIZE] += found.reference
    return Posterior(mean, covariance, prior_sd)


def whiten(found: tuple[Row, ...]) -> Whitened:
    """Return the rows scaled so that their errors, own and shared, are independent and of size 1."""
    design = np.array([row.coefficients for row in found])
    values = np.array([row.value for row in found])
    sized = design[:, SIZE] >= 1
    reference = float((values[sized] / design[sized, SIZE]).mean())
    root = np.linalg.cholesky(_covariance(found))
    undo = np.linalg.inv(root)
    return Whitened(undo @ design, undo @ (values - reference * design[:, SIZE]), reference, undo)


def _covariance(found: tuple[Row, ...]) -> Array:
    total = np.diag([row.variance for row in found])
    names = sorted({name for row in found for name, _ in row.shared})
    for name in names:
        doubt = np.array([sum(u for each, u in row.shared if each == name) for row in found])
        total += np.outer(doubt, doubt)
    return total


def _floor(sheet: Sheet) -> Array:
    """Return the assumed deviations, at least as wide as the swing of spans calls for."""
    assumed = sheet.assumptions
    if min(assumed[:ALWAYS]) <= 0:
        raise ValueError("what is assumed of unseen form needs standard deviations above zero")
    two, three = assumed.ovality_sd, assumed.lobing_sd
    for span in spans(sheet):
        seen = max(0.0, (span.largest - span.smallest) / 2 - np.sqrt(2.0) * span.u)
        two, three = (max(two, seen), three) if span.sees == "two_point" else (two, max(three, seen))
    floor = np.empty(UNKNOWNS)
    floor[SIZE], floor[TAPER], floor[BOW] = np.inf, assumed.taper_sd, assumed.curvature_sd
    floor[list(TWO_LOBES)], floor[list(THREE_LOBES)], floor[list(FIVE_LOBES)] = two, three, assumed.five_lobe_sd
    return floor


def _worsened(mean: Array, covariance: Array, prior_sd: Array, floor: Array) -> Array:
    """Return the assumed deviations, those of five lobes and bow widened by as much as what was seen exceeds them.

    The assumption itself counts as one more observation. Lobes count once both components are seen.
    """
    shown = [1.0]
    for places in (TAPER,), TWO_LOBES, THREE_LOBES:
        group = list(places)
        doubt = np.sqrt(np.linalg.eigvalsh(covariance[np.ix_(group, group)])[-1])
        if doubt < SEEN * prior_sd[group[0]]:
            shown += (mean[group] / floor[group]).tolist()
    wide, hidden = floor.copy(), [*FIVE_LOBES, BOW]
    wide[hidden] *= max(1.0, CAUTION * float(np.sqrt(np.mean(np.square(shown)))))
    return wide


def _widened(mean: Array, floor: Array) -> Array:
    wide = floor.copy()
    for places in GROUPS:
        group = list(places)
        wide[group] = np.maximum(floor[group], np.sqrt(np.mean(mean[group] ** 2)))
    return wide


def _solve(information: Array, evidence: Array, prior_sd: Array) -> tuple[Array, Array]:
    covariance = np.linalg.inv(information + np.diag(prior_sd**-2.0))
    covariance = (covariance + covariance.T) / 2
    return covariance @ evidence, covariance
