"""Whether what was read of a bore can all be true: the readings among themselves."""

from itertools import combinations
from math import erfc, sqrt
from typing import NamedTuple

import numpy as np

from recommender.metrology.model import posterior, whiten
from recommender.metrology.normal import Array, chi_square_survival
from recommender.metrology.rows import SIZE, Row, rows
from recommender.metrology.sheet import Shared, Sheet

LEAST = 1e-9
COVERAGE = 1.96


class Agreement(NamedTuple):
    """Chi-square of the readings about their best fit, its degrees of freedom, and how likely so bad a fit is.

    `probability` is the smaller of two: of a chi-square at least this large, and of two instruments' means at least
    this far apart. `worst` is the reading that stands out most (index into the readings of the sheet, then its
    spans) with its normalised residual; None where nothing is left over to compare.
    """

    chi2: float
    degrees: int
    probability: float
    worst: tuple[int, float] | None


class Pair(NamedTuple):
    """Mean diameter of `second` minus `first` in mm, and over its 95 % uncertainty (E_n): above 1 they disagree."""

    first: str
    second: str
    difference: float
    e_n: float


def agreement(sheet: Sheet) -> Agreement:
    """Return how well the readings agree with one bore of the modelled form; raises ValueError without readings.

    Chi-square test of weighted least squares that leans on no assumption; normalised residuals after Baarda (data
    snooping). Where only the comparison of two instruments could show a form, the chi-square cannot tell form from
    fault; there the means decide, each with the form it may hide.
    """
    made = rows(sheet)
    apart = min((erfc(each.e_n * COVERAGE / sqrt(2.0)) for each in pairs(sheet)), default=1.0)
    white = whiten(made)
    base, size, _ = np.linalg.svd(white.design, full_matrices=False)
    free = np.eye(len(made)) - base[:, size > size[0] * LEAST] @ base[:, size > size[0] * LEAST].T
    degrees = len(made) - int(np.count_nonzero(size > size[0] * LEAST))
    if degrees == 0:
        return Agreement(0.0, 0, apart, None)
    residual = free @ white.values
    chi2 = float(residual @ residual)
    worst = _worst(made, residual, free, white.undo)
    return Agreement(chi2, degrees, min(apart, chi_square_survival(chi2, degrees)), worst)


def pairs(sheet: Sheet) -> tuple[Pair, ...]:
    """Return every pair of instruments compared by their mean diameters, errors they share left out.

    E_n after ISO 13528 and ISO/IEC 17043 (from memory): difference over the root sum of squares of the 95 %
    uncertainties. Each mean carries the doubt of the form its own instrument could not see.
    """
    return tuple(_pair(sheet, first, second) for first, second in combinations(sheet.instruments, 2))


def _worst(made: tuple[Row, ...], residual: Array, free: Array, undo: Array) -> tuple[int, float]:
    pull = np.abs(undo.T @ residual)
    doubt = np.sqrt(np.diag(undo.T @ free @ undo).clip(min=0.0))
    checked = doubt > np.sqrt(LEAST) * np.sqrt(np.diag(undo.T @ undo))
    normalised = np.where(checked, pull / np.where(checked, doubt, 1.0), 0.0)
    place = int(np.argmax(normalised))
    return made[place].source, float(normalised[place])


def _pair(sheet: Sheet, first: str, second: str) -> Pair:
    alike = _names(sheet, first) & _names(sheet, second)
    found = [posterior(_only(sheet, name, alike)) for name in (first, second)]
    sizes = [float(each.mean[SIZE]) for each in found]
    doubt = sqrt(sum(float(each.covariance[SIZE, SIZE]) for each in found))
    return Pair(first, second, sizes[1] - sizes[0], abs(sizes[1] - sizes[0]) / (COVERAGE * doubt))


def _names(sheet: Sheet, instrument: str) -> set[str]:
    read = [(each.instrument, each.shared) for each in sheet.readings]
    read += [(each.instrument, each.shared) for each in sheet.spans]
    read += [(each.instrument, each.shared) for each in sheet.scans]
    return {name for by, shared in read if by == instrument for name, _ in shared}


def _only(sheet: Sheet, instrument: str, without: set[str]) -> Sheet:
    """Return what one instrument read, without errors it has in common with the other."""
    def own(shared: Shared) -> Shared:
        return tuple(each for each in shared if each[0] not in without)

    return sheet._replace(
        readings=tuple(e._replace(shared=own(e.shared)) for e in sheet.readings if e.instrument == instrument),
        spans=tuple(e._replace(shared=own(e.shared)) for e in sheet.spans if e.instrument == instrument),
        scans=tuple(e._replace(shared=own(e.shared)) for e in sheet.scans if e.instrument == instrument),
        gauges=(),
    )
