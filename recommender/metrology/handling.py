"""What a bore gauge reads beside the diameter because of how it sits: off centre, tilted, on flat or long contacts.

Plain geometry of a round bore, lengths in mm, angles in radians. Each is what the reading shows minus the diameter.
"""

from collections.abc import Mapping
from math import cos, exp, hypot, pi, sqrt
from typing import NamedTuple

from recommender.metrology.model import posterior
from recommender.metrology.normal import normal_cdf
from recommender.metrology.rows import TAPER
from recommender.metrology.sheet import Reading, Sees, Shared, Sheet, Span


class OneSided(NamedTuple):
    """An error that lies anywhere between nothing and its end: what to take off on average, and the doubt left."""

    mean: float
    u: float


def off_centre(diameter: float, offset: float) -> float:
    """Return what two contacts read on a chord `offset` beside the diameter: always small."""
    return sqrt(diameter**2 - 4 * offset**2) - diameter


def tilted(diameter: float, tilt: float, sees: Sees) -> float:
    """Return what a head leaning along the bore reads: large, with three contacts half as much as with two."""
    across = diameter / cos(tilt) - diameter
    return across / 2 if sees == "three_point" else across


def on_lands(diameter: float, width: float) -> float:
    """Return what flat contacts of a width across the bore read: they rest on their edges, so it is small."""
    return sqrt(diameter**2 - width**2) - diameter


def one_sided(end: float) -> OneSided:
    """Return mean and standard uncertainty of an error spread evenly between nothing and its end (rectangular)."""
    return OneSided(end / 2, abs(end) / sqrt(12.0))


def off_narrow_ends(sheet: Sheet, lengths: Mapping[str, float]) -> Sheet:
    """Return the sheet with readings put right for long contacts, which in a taper rest on the narrow end.

    `lengths` are those of the contacts along the bore at most, by instrument; how worn or short they are is not
    known, so half of what the longest would take from the reading is added, a quarter of length times steepness. How
    steep the bore is comes from the sheet itself. The doubt becomes an error shared by all readings of the instrument.
    """
    if not any(lengths.values()) or not (sheet.readings or sheet.spans):
        return sheet
    steep = _steepness(sheet)
    return sheet._replace(
        readings=tuple(_reading_off(each, lengths.get(each.instrument, 0.0), steep) for each in sheet.readings),
        spans=tuple(_span_off(each, lengths.get(each.instrument, 0.0), steep) for each in sheet.spans))


class _Steepness(NamedTuple):
    """Taper without sign in mm per mm, and its standard deviation."""

    mean: float
    u: float


def _steepness(sheet: Sheet) -> _Steepness:
    """Return the taper of a sheet without its sign (moments of a folded normal distribution)."""
    found = posterior(sheet)
    taper, doubt = float(found.mean[TAPER]), sqrt(float(found.covariance[TAPER, TAPER]))
    ratio = taper / doubt
    mean = doubt * sqrt(2 / pi) * exp(-(ratio**2) / 2) + taper * (2 * normal_cdf(ratio) - 1)
    return _Steepness(mean, sqrt(max(0.0, taper**2 + doubt**2 - mean**2)))


def _reading_off(read: Reading, length: float, steep: _Steepness) -> Reading:
    if not length:
        return read
    return read._replace(value=read.value + length / 4 * steep.mean, shared=_with_contacts(read, length, steep))


def _span_off(span: Span, length: float, steep: _Steepness) -> Span:
    if not length:
        return span
    add = length / 4 * steep.mean
    return span._replace(
        smallest=span.smallest + add, largest=span.largest + add, shared=_with_contacts(span, length, steep))


def _with_contacts(read: Reading | Span, length: float, steep: _Steepness) -> Shared:
    doubt = hypot(length / 4 * steep.u, length / 2 * steep.mean / sqrt(12.0))
    return (*read.shared, (f"contacts {read.instrument}", doubt))
