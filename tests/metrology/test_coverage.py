"""How often the stated 95 % intervals hold the true bore, over bores with all forms the assumptions allow."""

import numpy as np
import pytest

from recommender.metrology.circles import maximum_inscribed
from recommender.metrology.draws import draw
from recommender.metrology.model import posterior
from recommender.metrology.response import lobed, three_point, two_point
from recommender.metrology.scores import normal_scores
from recommender.metrology.sheet import Assumptions, Reading, Sheet
from recommender.metrology.summary import summarise

ASSUMED = Assumptions(ovality_sd=0.008, lobing_sd=0.005, five_lobe_sd=0.002, curvature_sd=0.002, taper_sd=0.004)
BORES, SEAT, U, OFFSET_U = 200, 10.0, 0.001, 0.002
PLANS = {
    "two-point and three-point grid": (((0, 60, 120), (2, 8)), ((0, 40, 80), (2, 8))),
    "three-point only": (((), ()), ((0, 40, 80), (2, 5, 8))),
}


class Bore:
    def __init__(self, random: np.random.Generator) -> None:
        self.middle = 41.0 + random.normal() * 0.01
        self.taper = random.normal() * ASSUMED.taper_sd
        self.bow = random.normal() * ASSUMED.curvature_sd
        deviations = {2: ASSUMED.ovality_sd, 3: ASSUMED.lobing_sd, 5: ASSUMED.five_lobe_sd}
        self.lobes = [
            (number, random.rayleigh(deviation) / 2, random.uniform(0, 360)) for number, deviation in deviations.items()
        ]

    def mean_at(self, depth):
        place = 2 * np.asarray(depth) / SEAT - 1
        return self.middle + self.taper * SEAT / 2 * place + self.bow * (1 - place**2)

    def section(self, depth: float):
        return lobed(float(self.mean_at(depth)) / 2, *self.lobes)

    def inscribed(self) -> float:
        depths = np.linspace(0, SEAT, 101)
        narrow = depths[np.argmin(self.mean_at(depths))]
        angles = np.arange(240) * 2 * np.pi / 240
        radius = self.section(narrow)(angles)
        return maximum_inscribed(np.stack([radius * np.cos(angles), radius * np.sin(angles)], axis=1)).diameter

    def mean(self) -> float:
        return self.middle + 2 / 3 * self.bow

    def ovality(self) -> float:
        return 4 * self.lobes[0][1]


def _sheet(bore: Bore, plan, random: np.random.Generator) -> Sheet:
    (two_turns, two_depths), (three_turns, three_depths) = plan
    offsets = {"two": random.normal() * OFFSET_U, "mic": random.normal() * OFFSET_U}
    exact = [(two_point(bore.section(depth), turn), "two", "two_point", depth, turn)
             for depth in two_depths for turn in two_turns]
    exact += [(three_point(bore.section(depth), turn).value, "mic", "three_point", depth, turn)
              for depth in three_depths for turn in three_turns]
    readings = tuple(
        Reading(value + offsets[name] + random.normal() * U, name, sees, depth, turn, U, ((name, OFFSET_U),))
        for value, name, sees, depth, turn in exact
    )
    return Sheet(readings, (), (), SEAT, ASSUMED)


@pytest.mark.parametrize("plan", PLANS)
def test_intervals_hold_the_true_bore(plan: str) -> None:
    random = np.random.default_rng(20)
    held = {"mean": 0, "inscribed": 0, "ovality": 0}
    for _ in range(BORES):
        bore = Bore(random)
        sheet = _sheet(bore, PLANS[plan], random)
        made = draw(posterior(sheet), sheet, normal_scores(10))
        for field in held:
            found = summarise(getattr(made, field), made.weights, made.effective_count)
            held[field] += found.low <= getattr(bore, field)() <= found.high
    assert {field: count for field, count in held.items() if count < 0.9 * BORES} == {}
