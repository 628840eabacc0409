"""The uncertainty budgets of a case, side by side, and what each instrument can decide there."""

from collections.abc import Mapping
from math import inf
from typing import NamedTuple

from recommender.asking.candidates import sheet_of_side
from recommender.bench.instruments import Instrument
from recommender.bench.load import LoadedCase
from recommender.deriving.derived import SIDES, SideName
from recommender.deriving.spreads import COVERAGE, RECTANGLE, STEP, ring_drift
from recommender.metrology.sheet import Sheet
from recommender.metrology.side_budget import Capability, Part, SideBudget, capability, side_budget
from recommender.rulebook.book import Rulebook

# Degrees of freedom of a standard uncertainty that is itself doubtful by a quarter (GUM G.4.2, example).
ASSUMED_DEGREES = 8.0


class BoreBudget(NamedTuple):
    """Budget of the mean diameter of a side, with all readings; what they can decide, all together and each alone.

    Capabilities are None and empty where the standard publishes no two limits.
    """

    budget: SideBudget
    together: Capability | None
    by_instrument: Mapping[str, Capability]


def side_budgets(loaded: LoadedCase, book: Rulebook) -> dict[SideName, BoreBudget]:
    """Return the budget of every side that was read."""
    parts = {name: each for instrument in loaded.case.bench.instruments
             for name, each in _parts(instrument, book).items()}
    sheets = {side: sheet_of_side(loaded, side, book) for side in SIDES}
    band = _band(loaded, book)
    return {side: _budget(sheet, parts, band) for side, sheet in sheets.items() if sheet.readings or sheet.spans}


def _budget(sheet: Sheet, parts: Mapping[str, tuple[Part, ...]], band: tuple[float, float] | None) -> BoreBudget:
    whole = side_budget(sheet, parts)
    if band is None:
        return BoreBudget(whole, None, {})
    names = sorted({each.instrument for each in sheet.readings} | {each.instrument for each in sheet.spans})
    alone = {name: capability(side_budget(_only(sheet, name), parts).u, *band) for name in names}
    return BoreBudget(whole, capability(whole.u, *band), alone)


def _band(loaded: LoadedCase, book: Rulebook) -> tuple[float, float] | None:
    standard = book.standards.get(loaded.case.frame.standard)
    bore = None if standard is None else standard.bore
    return None if bore is None or bore.lower is None or bore.upper is None else (bore.lower, bore.upper)


def _only(sheet: Sheet, instrument: str) -> Sheet:
    return sheet._replace(
        readings=tuple(each for each in sheet.readings if each.instrument == instrument),
        spans=tuple(each for each in sheet.spans if each.instrument == instrument))


def _parts(instrument: Instrument, book: Rulebook) -> dict[str, tuple[Part, ...]]:
    """Return what the errors of an instrument are made of; what its record leaves out is doubtful by a quarter."""
    kind, drift = book.instruments[instrument.kind], ring_drift(instrument) or 0.0
    limit = kind.error_limit if instrument.error_limit is None else instrument.error_limit
    step = kind.resolution if instrument.resolution is None else instrument.resolution
    degrees = ASSUMED_DEGREES if instrument.error_limit is None else inf
    own = (Part("repeatability", kind.repeatability, "normal", ASSUMED_DEGREES),
           Part("resolution", step / STEP, "rectangular"))
    shared = (Part("error limit", limit / RECTANGLE, "rectangular", degrees),
              Part("drift on the setting ring", drift / 2 / RECTANGLE, "rectangular"))
    return {f"own {instrument.id}": own, f"instrument {instrument.id}": shared} | _ring(instrument, book)


def _ring(instrument: Instrument, book: Rulebook) -> dict[str, tuple[Part, ...]]:
    """Return the setting ring, whose size is the only source of its error."""
    if instrument.ring is None:
        return {}
    within = instrument.ring.size.within
    degrees = ASSUMED_DEGREES if within is None else inf
    u = (book.spreads["ring"].value if within is None else within) / COVERAGE
    return {f"ring {instrument.id}": (Part("setting ring", u, "normal", degrees),)}
