"""What candidate readings promise: how likely they settle a check, and how much doubt they leave."""

from collections.abc import Mapping
from typing import NamedTuple

import numpy as np

from recommender.asking.fields import Field, drawn, field_of, interval
from recommender.asking.outlook import Outlook, doubt_left
from recommender.asking.rerun import OpenCheck
from recommender.asking.scores import Array, fixed_scores
from recommender.metrology.identify import Seen, seen
from recommender.metrology.rows import UNKNOWNS
from recommender.metrology.sheet import Sheet
from recommender.metrology.summary import SHARES

DRAWS, OUTCOMES = 1024, 16
COVERAGE = 1.96
MM = 1.0
UM = 1000.0
DRIVEN: Mapping[str, tuple[Field, float]] = {
    "bore.mean_diameter": ("mean", MM), "bore.inscribed_diameter": ("inscribed", MM),
    "bore.widest_diameter": ("widest", MM), "bore.mouth_diameter": ("mouth", MM),
    "bore.inner_diameter": ("bottom", MM), "bore.ovality": ("ovality", UM), "bore.lobing": ("lobing", UM),
    "bore.taper": ("taper", UM), "bore.off_nominal": ("mean", MM), "bore.over_upper_limit": ("mean", UM),
    "bore.under_lower_limit": ("mean", -UM),
    "fit.mean_interference": ("mean", -UM), "fit.tightest_interference": ("inscribed", -UM),
    "fit.loosest_interference": ("widest", -UM), "compound.gap": ("mean", UM),
}
SHOWN_BY: Mapping[str, tuple[Field, str]] = {
    "evidence.ovality_seen": ("ovality", "ovality"), "evidence.ovality_bound": ("ovality", "ovality"),
    "evidence.lobing_seen": ("lobing", "lobing"), "evidence.taper_seen": ("taper", "taper"),
    "evidence.rests_on_assumption": ("inscribed", "size"), "evidence.depths": ("taper", "depths"),
    "evidence.readings": ("mean", "count"), "evidence.size_doubt": ("mean", "size"),
}
OF_OPTION = ("fit.", "strain.", "bearing.", "grip.", "ordinary.", "make.", "cut.")


class Promise(NamedTuple):
    """`share`: how likely the check is settled; `left`: doubt left in what drives it, against the doubt now."""

    share: float
    left: float


def driver_of(check: OpenCheck) -> Field | None:
    """Return the size or form whose doubt keeps a check open, None where no reading of the bore bears on it."""
    if check.fact in SHOWN_BY:
        return SHOWN_BY[check.fact][0]
    if check.fact in DRIVEN:
        return DRIVEN[check.fact][0]
    numeric = check.found.value is not None and bool(check.limits)
    return "inscribed" if numeric and check.fact.startswith(OF_OPTION) else None


def promise(check: OpenCheck, sheet: Sheet, ahead: Outlook) -> Promise:
    """Return what candidate readings promise for a check that readings of the bore can settle.

    A flag of the evidence is settled or not by where the readings lie, whatever they show; a number by the share of
    equally likely outcomes after which the interval that decides is clear of the limits.
    """
    field = driver_of(check)
    assert field is not None, "only checks driven by the bore are asked about"
    left = doubt_left(field, ahead.stages[0], ahead.after)
    if check.fact in SHOWN_BY:
        more = sheet._replace(readings=(*sheet.readings, *(each.reading for each in ahead.readings)))
        return Promise(float(_shown(check, seen(more))), left)
    return Promise(_settled_share(check, field, ahead, sheet.confidence), left)


def _shown(check: OpenCheck, sees: Seen) -> bool:
    known = getattr(sees, SHOWN_BY[check.fact][1])
    return bool(known) if isinstance(known, bool) else all(known >= limit for limit in check.limits)


def _settled_share(check: OpenCheck, field: Field, ahead: Outlook, confidence: float) -> float:
    scores, seat_depth = fixed_scores(DRAWS, UNKNOWNS + 2), ahead.after.seat_depth
    before = _values(field, ahead.stages[0].mean, ahead.stages[0].covariance, seat_depth, scores)
    scale = _scale(check, before)
    if scale is None:
        return 0.0
    rest = scores[:, UNKNOWNS + 1] * _rest(check, before, scale)
    settled = 0
    for outcome in ahead.outcomes(OUTCOMES):
        values = _values(field, outcome.mean, ahead.after.covariance, seat_depth, scores)
        found = (check.found.value or 0.0) + scale * (values - np.median(before)) + rest
        low, high = interval(found, confidence)
        settled += all(not low <= limit <= high for limit in check.limits)
    return settled / OUTCOMES


def _values(field: Field, mean: Array, covariance: Array, seat_depth: float, scores: Array) -> Array:
    beta = mean[:UNKNOWNS, None] + drawn(covariance, scores)
    return field_of(field, beta, scores[:, UNKNOWNS], seat_depth)


def _scale(check: OpenCheck, before: Array) -> float | None:
    """Return how far the fact moves, in its unit, per mm of its driver; None where nothing is known of it."""
    if check.fact in DRIVEN:
        return DRIVEN[check.fact][1]
    if check.found.low is None or check.found.high is None:
        return None
    low, high = np.quantile(before, (SHARES[0], SHARES[-1]))
    return -float((check.found.high - check.found.low) / (high - low))


def _rest(check: OpenCheck, before: Array, scale: float) -> float:
    """Return the standard uncertainty of the fact that does not come from the bore."""
    if check.found.low is None or check.found.high is None:
        return 0.0
    whole = (check.found.high - check.found.low) / 2 / COVERAGE
    return float(np.sqrt(max(0.0, whole**2 - (scale * float(before.std())) ** 2)))
