"""Facts about the evidence of a side: what the readings can show, and whether they agree."""

from datetime import timedelta

from recommender.bench.case import Case
from recommender.bench.instruments import Instrument
from recommender.deriving.collector import Collector
from recommender.deriving.derived import SideName
from recommender.deriving.sheet import BoreSheet
from recommender.deriving.spreads import COVERAGE, ring_drift
from recommender.deriving.suitability import suitability_facts
from recommender.metrology.agreement import agreement
from recommender.metrology.draws import Draws
from recommender.metrology.identify import ovality_bound, seen
from recommender.metrology.model import Posterior
from recommender.metrology.plugs import gauge_contradictions
from recommender.rulebook.book import Rulebook

NOT_READ = "the bore was not read"


def evidence_facts(
    case: Case, name: SideName, book: Rulebook, made_sheet: BoreSheet, posterior: Posterior | None,
    draws: Draws | None, made: Collector,
) -> None:
    """Derive what the sheet can show, whether it agrees with itself and with the gauges, and its instruments."""
    sheet, inputs = made_sheet.sheet, made_sheet.inputs
    sees = seen(sheet)
    made.exact("evidence.readings", sees.count, *inputs)
    made.exact("evidence.depths", sees.depths, *inputs)
    made.exact("evidence.full_turns", sees.full_turns, *inputs)
    made.word("evidence.ovality_seen", sees.ovality, *inputs)
    made.word("evidence.lobing_seen", sees.lobing, *inputs)
    made.word("evidence.taper_seen", sees.taper, *inputs)
    made.word(
        "evidence.rests_on_assumption",
        not (sees.ovality and sees.lobing and sees.taper),
        "evidence.ovality_seen",
        "evidence.lobing_seen",
        "evidence.taper_seen",
    )
    bound = ovality_bound(sheet)
    if bound is None:
        made.unknown("evidence.ovality_bound", "no go gauge entered fully beside three-point readings", *inputs)
    else:
        half = COVERAGE * bound.u
        value, low, high = (max(0.0, each) * 1000 for each in (bound.most, bound.most - half, bound.most + half))
        made.between("evidence.ovality_bound", value, low, high, *inputs)
    _instruments(case, book, made_sheet, made)
    suitability_facts(case, name, book, made_sheet, made)
    if posterior is None or draws is None:
        for fact in ("evidence.fits_together", "evidence.gauges_contradict", "evidence.size_doubt"):
            made.unknown(fact, NOT_READ)
        return
    made.exact("evidence.fits_together", agreement(sheet).probability, *inputs)
    least = book.limits["evidence.contradiction"].value
    made.word(
        "evidence.gauges_contradict",
        bool(gauge_contradictions(sheet, posterior, draws, least)),
        *inputs,
        "limit:evidence.contradiction",
    )
    mean = draws.by.summary(draws.mean)
    made.exact("evidence.size_doubt", (mean.high - mean.low) / 2 * 1000, "bore.mean_diameter")


def _instruments(case: Case, book: Rulebook, sheet: BoreSheet, made: Collector) -> None:
    used, inputs = sheet.instruments, sheet.instrument_inputs
    if not used:
        for fact in (
            "evidence.ring_drift",
            "evidence.ring_checked",
            "evidence.calibration_current",
            "evidence.decides_fit",
        ):
            made.unknown(fact, NOT_READ)
        return
    deciding = [each for each in used if book.instruments[each.kind].decides_fit]
    drifts = [ring_drift(each) for each in used]
    known = [drift for drift in drifts if drift is not None]
    made.word("evidence.decides_fit", bool(deciding), *inputs)
    checked = bool(known) and all(ring_drift(each) is not None for each in deciding)
    made.word("evidence.ring_checked", checked, *inputs)
    if known:
        made.exact("evidence.ring_drift", max(known) * 1000, *inputs)
    else:
        made.unknown("evidence.ring_drift", "no instrument was read on a setting ring before and after", *inputs)
    made.word(
        "evidence.calibration_current",
        _calibrated(case, book, used),
        *inputs,
        "limit:calibration.valid",
        why="the calibration date of an instrument is missing",
    )


def _calibrated(case: Case, book: Rulebook, used: tuple[Instrument, ...]) -> bool | None:
    valid = timedelta(days=book.limits["calibration.valid"].value)
    dates = [each.calibrated for each in used]
    if any(date is None for date in dates):
        return None
    return all(case.received - date <= valid for date in dates if date is not None)
