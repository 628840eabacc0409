import pytest

from recommender.metrology.model import posterior
from recommender.metrology.plugs import gauge_contradictions
from recommender.metrology.sheet import Gauge

TWO, THREE = "two_point", "three_point"
LEAST = 0.001


def _codes(bench, *gauges: Gauge, readings=None) -> set[str]:
    read = readings or (*bench.read(TWO, (0, 60, 120), (3, 8, 13)), *bench.read(THREE, (0, 40, 80), (3, 8, 13)))
    sheet = bench.sheet(*read, gauges=gauges)
    return {each.code for each in gauge_contradictions(sheet, posterior(sheet), bench.draws(sheet), LEAST)}


# Inscribed diameter of the bore: 40.9992 at the mouth, 40.9800 at the inner end; readings from 40.987 to 41.038.
@pytest.mark.parametrize(
    ("gauge", "codes"),
    [
        (Gauge("go", 40.975, 0.001, "enters_fully"), set()),
        (Gauge("go", 41.000, 0.001, "enters_fully"), {"plug_too_large", "reading_below_plug"}),
        (Gauge("no_go", 41.010, 0.001, "did_not_enter"), set()),
        (Gauge("no_go", 40.980, 0.001, "did_not_enter"), {"plug_not_stopped"}),
        (Gauge("go", 40.990, 0.001, "entered_to", depth=7.7), set()),
        (Gauge("go", 40.975, 0.001, "entered_to", depth=7.7), {"plug_not_stopped"}),
        (Gauge("go", 41.005, 0.001, "entered_to", depth=7.7), {"plug_too_large"}),
        (Gauge("go", 40.975, 0.001, "entered_to", depth=16.0), set()),
        (Gauge("go", 40.993, 0.001, "enters_fully", length=3.0), set()),
    ],
)
def test_a_plug_beside_a_full_grid(bench, gauge: Gauge, codes: set[str]) -> None:
    assert _codes(bench, gauge) == codes


def test_a_go_as_large_as_three_point_readings_is_a_round_bore_and_no_contradiction(bench) -> None:
    bore = bench.bore.copy()
    bore[1:] = 0.0
    readings = bench.read(THREE, (0, 40, 80), (3, 8, 13), bore=bore)
    assert _codes(bench, Gauge("go", 41.012, 0.001, "enters_fully"), readings=readings) == set()
    assert "plug_too_large" in _codes(bench, Gauge("go", 41.030, 0.001, "enters_fully"), readings=readings)


def test_a_refused_plug_beside_three_point_readings_may_mean_an_oval_bore(bench) -> None:
    readings = bench.read(THREE, (0, 40, 80), (3, 8, 13))
    assert _codes(bench, Gauge("go", 40.990, 0.001, "did_not_enter"), readings=readings) == set()


def test_a_plug_in_and_a_smaller_one_not(bench) -> None:
    large, small = Gauge("go", 40.975, 0.001, "enters_fully"), Gauge("no_go", 40.970, 0.001, "did_not_enter")
    assert "plugs_disagree" in _codes(bench, large, small)


def test_order_of_plugs_that_agree(bench) -> None:
    small, large = Gauge("go", 40.975, 0.001, "enters_fully"), Gauge("no_go", 41.01, 0.001, "did_not_enter")
    assert _codes(bench, small, large) == set()


def test_the_threshold_decides(bench) -> None:
    sheet = bench.sheet(*bench.read(THREE, (0, 40, 80), (3, 8, 13)), gauges=(Gauge("go", 41.0, 0.001, "enters_fully"),))
    found, draws = posterior(sheet), bench.draws(sheet)
    certain = gauge_contradictions(sheet, found, draws, 1.1)
    assert {each.code for each in certain} == {"plug_too_large", "reading_below_plug"}
    assert all(0 <= each.probability <= 1 for each in certain)
