"""Whether a plug gauge and the readings of a bore, or two plugs, can both be right."""

from math import hypot, sqrt
from typing import Literal, NamedTuple

import numpy as np

from recommender.metrology.draws import Draws
from recommender.metrology.gauges import fits, inscribed_at, stopped
from recommender.metrology.inscribed import loss
from recommender.metrology.model import Posterior
from recommender.metrology.normal import Array, normal_cdf
from recommender.metrology.rows import THREE_LOBES, TWO_LOBES
from recommender.metrology.sheet import Gauge, Reading, Sheet, Span, reach

Code = Literal["plug_too_large", "plug_not_stopped", "reading_below_plug", "plugs_disagree"]


class Contradiction(NamedTuple):
    """Two things that can hardly both be true, and how likely they are.

    `plug_too_large`: it went in although the readings leave no room. `plug_not_stopped`: it should have gone in, or
    further. `reading_below_plug`: a reading (`other`, counted through readings, then spans) is smaller than a plug
    that passed it. `plugs_disagree`: this plug went in and a smaller one (`other`) did not.
    """

    code: Code
    gauge: int
    other: int | None
    probability: float


class _Smallest(NamedTuple):
    place: int
    value: float
    depth: float | None
    variance: float


def gauge_contradictions(
    sheet: Sheet, found: Posterior, draws: Draws, threshold: float
) -> tuple[Contradiction, ...]:
    """Return every gauge result that is less likely than the threshold beside the readings or another plug.

    A plug that went in is judged with no more form than the readings showed, so that no assumption accuses it; one
    that did not go in is judged with all the form the readings leave open.
    """
    made = [
        *_against_fit(sheet, found, draws),
        *_against_readings(sheet),
        *_against_plugs(sheet.gauges),
    ]
    return tuple(each for each in made if each.probability < threshold)


def _against_fit(sheet: Sheet, found: Posterior, draws: Draws) -> list[Contradiction]:
    two, three = (float(np.hypot(*found.mean[list(places)])) for places in (TWO_LOBES, THREE_LOBES))
    least = np.minimum(draws.loss, loss(two, three))
    made = []
    for index, gauge in enumerate(sheet.gauges):
        if gauge.result != "did_not_enter":
            made.append(Contradiction("plug_too_large", index, None, _passes(gauge, draws, least)))
        if gauge.result == "did_not_enter" or stopped(gauge, sheet.seat_depth):
            made.append(Contradiction("plug_not_stopped", index, None, 1 - _passes(gauge, draws, draws.loss)))
    return made


def _passes(gauge: Gauge, draws: Draws, lost: Array) -> float:
    return float(draws.reading_weights @ fits(gauge, inscribed_at(gauge, draws.axis, lost)))


def _against_readings(sheet: Sheet) -> list[Contradiction]:
    """Compare each reading with plugs that passed its depth: no reading is smaller than the inscribed circle."""
    read = [_Smallest(index, each.value, each.depth, _variance(each))
            for index, each in enumerate(sheet.readings)]
    read += [_Smallest(index, each.smallest, each.depth, _variance(each))
             for index, each in enumerate(sheet.spans, len(sheet.readings))]
    return [
        Contradiction("reading_below_plug", gauge_place, each.place,
                      normal_cdf((each.value - gauge.size) / sqrt(each.variance + gauge.u**2)))
        for gauge_place, gauge in enumerate(sheet.gauges) if gauge.result != "did_not_enter"
        for each in read
        if (sheet.seat_depth if each.depth is None else each.depth) <= reach(gauge, sheet.seat_depth)
    ]


def _variance(read: Reading | Span) -> float:
    return read.u**2 + sum(u**2 for _, u in read.shared)


def _against_plugs(gauges: tuple[Gauge, ...]) -> list[Contradiction]:
    passed = [(index, each) for index, each in enumerate(gauges) if each.result != "did_not_enter"]
    refused = [(index, each) for index, each in enumerate(gauges) if each.result == "did_not_enter"]
    return [
        Contradiction("plugs_disagree", index, other,
                      normal_cdf((small.size - large.size) / hypot(small.u, large.u)))
        for index, large in passed for other, small in refused
    ]
