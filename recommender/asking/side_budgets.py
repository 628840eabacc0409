"""The uncertainty budgets of a case, side by side, and what each instrument can decide there."""

from collections.abc import Mapping
from math import inf, sqrt
from typing import NamedTuple

from recommender.asking.candidates import sheet_of_side
from recommender.bench.case import Case
from recommender.bench.instruments import Instrument
from recommender.bench.load import LoadedCase
from recommender.deriving.correction import on_ring, sits_off
from recommender.deriving.derived import SIDES, SideName
from recommender.deriving.spreads import RECTANGLE, STEP, believed_limit, ring_drift, scalar_spread
from recommender.metrology.handling import one_sided
from recommender.metrology.sheet import Sheet
from recommender.metrology.side_budget import Capability, Part, SideBudget, capability, side_budget
from recommender.rulebook.book import Rulebook

# Degrees of freedom of a standard uncertainty that is itself doubtful by a quarter (GUM G.4.2, example).
ASSUMED_DEGREES = 8.0
# How an instrument sits is told for a bore of this size (mm); its share does not depend on it.
SIZE = 42.0


class BoreBudget(NamedTuple):
    """Budget of the mean diameter of a side, with all readings; what they can decide, all together and each alone.

    Capabilities are None and empty where the standard publishes no two limits.
    """

    budget: SideBudget
    together: Capability | None
    by_instrument: Mapping[str, Capability]


def side_budgets(loaded: LoadedCase, book: Rulebook) -> dict[SideName, BoreBudget]:
    """Return the budget of every side that was read."""
    sheets = {side: sheet_of_side(loaded, side, book) for side in SIDES}
    band = _band(loaded, book)
    return {side: _budget(sheet, _side_parts(loaded.case, side, book), band)
            for side, sheet in sheets.items() if sheet.was_read}


def _budget(sheet: Sheet, parts: Mapping[str, tuple[Part, ...]], band: tuple[float, float] | None) -> BoreBudget:
    whole = side_budget(sheet, parts)
    if band is None:
        return BoreBudget(whole, None, {})
    alone = {name: capability(side_budget(_only(sheet, name), parts).u, *band) for name in sheet.instruments}
    return BoreBudget(whole, capability(whole.u, *band), alone)


def _band(loaded: LoadedCase, book: Rulebook) -> tuple[float, float] | None:
    standard = book.standards.get(loaded.case.frame.standard)
    bore = None if standard is None else standard.bore
    return None if bore is None or bore.lower is None or bore.upper is None else (bore.lower, bore.upper)


def _only(sheet: Sheet, instrument: str) -> Sheet:
    return sheet._replace(
        readings=tuple(each for each in sheet.readings if each.instrument == instrument),
        spans=tuple(each for each in sheet.spans if each.instrument == instrument),
        scans=tuple(each for each in sheet.scans if each.instrument == instrument))


def _side_parts(case: Case, side: SideName, book: Rulebook) -> dict[str, tuple[Part, ...]]:
    depth = getattr(case.sides, side).seat_depth
    found: dict[str, tuple[Part, ...]] = {}
    for each in case.bench.instruments:
        found |= _parts(each, book) | _ring(each, case, book)
        sits = sits_off(SIZE, each, None if depth is None else depth.value, book)
        found[f"handling {each.id}"] = tuple(
            Part(name, one_sided(end).u, "rectangular") for name, end in sits.items())
    return found


def _parts(instrument: Instrument, book: Rulebook) -> dict[str, tuple[Part, ...]]:
    """Return what the errors of an instrument are made of; what its record leaves out is doubtful by a quarter."""
    kind, drift = book.instruments[instrument.kind], ring_drift(instrument) or 0.0
    limit = believed_limit(instrument, book)
    step = kind.resolution if instrument.resolution is None else instrument.resolution
    degrees = ASSUMED_DEGREES if instrument.error_limit is None else inf
    own = (Part("repeatability", kind.repeatability, "normal", ASSUMED_DEGREES),
           Part("resolution", step / STEP, "rectangular"))
    shared = (Part("error limit", limit / RECTANGLE, "rectangular", degrees),
              Part("drift on the setting ring", drift / 2 / RECTANGLE, "rectangular"))
    return {f"own {instrument.id}": own, f"instrument {instrument.id}": shared}


def _ring(instrument: Instrument, case: Case, book: Rulebook) -> dict[str, tuple[Part, ...]]:
    """Return the setting ring: its size, and its temperature where it is not that of the instrument."""
    if instrument.ring is None:
        return {}
    degrees = ASSUMED_DEGREES if instrument.ring.size.within is None else inf
    size = scalar_spread(instrument.ring.size, "ring", case, book).u
    _, ((name, whole),) = on_ring(instrument, case, book)
    warm = sqrt(max(0.0, whole**2 - size**2))
    return {name: (Part("setting ring", size, "normal", degrees), Part("temperature of the ring", warm))}
