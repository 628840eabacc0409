from collections.abc import Sequence

import numpy as np
import pytest
from numpy.typing import NDArray

from recommender.metrology.draws import Draws, draw
from recommender.metrology.model import posterior
from recommender.metrology.rows import coefficients
from recommender.metrology.scores import normal_scores
from recommender.metrology.sheet import Assumptions, Gauge, Reading, Sees, Sheet, Span
from recommender.metrology.summary import Summary, summarise

DEFAULTS = Assumptions(ovality_sd=0.008, lobing_sd=0.005, five_lobe_sd=0.002, curvature_sd=0.002, taper_sd=0.004)
# One bore used throughout: mid diameter, taper, two lobes, three lobes; no five lobes, no bow; 16 mm deep.
BORE = np.array([41.012, -0.0012, 0.020, -0.010, 0.006, 0.008, 0.0, 0.0, 0.0])
SEAT = 16.0
INSTRUMENTS: dict[Sees, str] = {"two_point": "two", "three_point": "mic"}


class Bench:
    """Reads a bore of the model without error, and sums sheets up."""

    defaults = DEFAULTS
    bore = BORE
    seat = SEAT

    def read(
        self, sees: Sees, turns: Sequence[float], depths: Sequence[float], u: float = 0.001,
        offset_u: float = 0.002, bore: NDArray[np.float64] = BORE,
    ) -> tuple[Reading, ...]:
        name = INSTRUMENTS[sees]
        shared = ((f"instrument {name}", offset_u),) if offset_u else ()
        return tuple(
            Reading(float(np.dot(coefficients(depth, SEAT, sees, turn), bore)), name, sees, depth, turn, u, shared)
            for depth in depths for turn in turns
        )

    def sheet(
        self, *readings: Reading, spans: tuple[Span, ...] = (), gauges: tuple[Gauge, ...] = (),
        assumptions: Assumptions = DEFAULTS,
    ) -> Sheet:
        return Sheet(readings, spans, gauges, SEAT, assumptions)

    def draws(self, sheet: Sheet) -> Draws:
        return draw(posterior(sheet), sheet, normal_scores(16))

    def summary(self, sheet: Sheet, field: str) -> Summary:
        made = self.draws(sheet)
        return summarise(getattr(made, field), made.weights, made.effective_count)


@pytest.fixture(scope="session")
def bench() -> Bench:
    return Bench()
