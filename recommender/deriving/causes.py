"""Facts that only speak on causes."""

import numpy as np

from recommender.bench.case import Case
from recommender.deriving.collector import Collector
from recommender.deriving.derived import SideName
from recommender.deriving.measured import MeasuredLog
from recommender.metrology.draws import Draws


def past_fit_fact(case: Case, name: SideName, draws: Draws | None, log: MeasuredLog, made: Collector) -> None:
    """Derive how tight the largest measured cup of the history was against the bore as it is now."""
    measured = [
        (index, cup.od.value)
        for index, cup in enumerate(case.history.cups or ())
        if cup.od is not None and cup.side in (name, None)
    ]
    if draws is None or not measured:
        made.unknown("cause.tightest_past_fit", "no cup taken out of this bore was measured")
        return
    index, od = max(measured, key=lambda each: each[1])
    noted = log.keep(("history", "cups", index, "od"), "outside diameter of a cup taken out", f"{od:.3f} mm")
    made.drawn(
        "cause.tightest_past_fit",
        np.asarray(od - draws.mean) * 1000,
        draws.by,
        ("bore.mean_diameter", noted),
    )
