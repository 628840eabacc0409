import numpy as np
import pytest

from recommender.metrology.draws import draw
from recommender.metrology.model import posterior
from recommender.metrology.scores import normal_scores
from recommender.metrology.sheet import Assumptions, Gauge, Span
from recommender.metrology.summary import summarise

TWO, THREE = "two_point", "three_point"
OPEN = Assumptions(ovality_sd=1e3, lobing_sd=1e3, five_lobe_sd=1e-9, curvature_sd=1e-9, taper_sd=1e3)


def _width(summary) -> float:
    return summary.high - summary.low


def _three(bench, **options):
    return bench.read(THREE, (0, 40, 80), (3, 8, 13), **options)


def _two(bench, **options):
    return bench.read(TWO, (0, 60, 120), (3, 8, 13), **options)


def _round(bench):
    bore = bench.bore.copy()
    bore[1:] = 0.0
    return bore


def test_three_point_readings_alone_leave_ovality_wide_open(bench) -> None:
    sheet = bench.sheet(*_three(bench))
    ovality, inscribed = bench.summary(sheet, "ovality"), bench.summary(sheet, "inscribed")
    assert ovality.low < 0.008
    assert ovality.high > 0.030
    assert _width(inscribed) > 0.015


def test_a_two_point_grid_closes_what_three_point_readings_left_open(bench) -> None:
    sheet = bench.sheet(*_three(bench), *_two(bench))
    ovality, inscribed = bench.summary(sheet, "ovality"), bench.summary(sheet, "inscribed")
    assert _width(ovality) < 0.005
    assert ovality.low < 2 * np.hypot(0.020, 0.010) < ovality.high
    alone = bench.summary(bench.sheet(*_three(bench)), "inscribed")
    assert _width(inscribed) < 0.6 * _width(alone)


def test_inscribed_diameter_of_one_section_with_its_spread(bench) -> None:
    readings = (*bench.read(TWO, (0, 60, 120), (3, 13), u=0.004, offset_u=0),
                *bench.read(THREE, (0, 40, 80), (3, 13), u=0.002, offset_u=0))
    sheet = bench.sheet(*readings, assumptions=OPEN)
    made = draw(posterior(sheet), sheet, normal_scores(10))
    at_mid_seat = made.at(8.0) - made.loss
    assert at_mid_seat.mean() == pytest.approx(40.98949, abs=1e-4)
    assert at_mid_seat.std() == pytest.approx(0.00238, abs=5e-5)


def test_taper_is_positive_where_the_bore_opens_towards_the_face(bench) -> None:
    made = bench.draws(bench.sheet(*_three(bench), *_two(bench)))
    assert np.median(made.taper) == pytest.approx(0.0012 * 16, abs=1e-4)
    assert np.array_equal(made.taper, made.mouth - made.bottom)
    assert np.median(made.mouth) > np.median(made.mean) > np.median(made.bottom)
    assert made.depth == bench.seat


def test_a_bow_counts_two_thirds_in_the_mean(bench) -> None:
    bowed = bench.bore.copy()
    bowed[8] = -0.030
    sheet = bench.sheet(*bench.read(TWO, (0, 60, 120), (0, 4, 8, 12, 16), bore=bowed))
    assert bench.summary(sheet, "mean").value == pytest.approx(41.012 - 0.020, abs=3e-4)


def test_inscribed_and_widest_are_those_of_the_worst_section(bench) -> None:
    made = bench.draws(bench.sheet(*_three(bench), *_two(bench)))
    sections = np.stack([made.at(depth) for depth in np.linspace(0, bench.seat, 33)])
    assert np.all(made.inscribed <= sections.min(axis=0) - made.loss + 1e-12)
    assert made.inscribed == pytest.approx(sections.min(axis=0) - made.loss, abs=3e-5)
    assert made.widest == pytest.approx(sections.max(axis=0) + made.loss, abs=3e-5)


def test_without_gauges_all_draws_weigh_the_same(bench) -> None:
    made = bench.draws(bench.sheet(*_three(bench)))
    assert made.effective_count == pytest.approx(4096)
    assert made.weights.sum() == pytest.approx(1.0)


def test_a_go_that_passed_narrows_ovality_of_three_point_readings(bench) -> None:
    readings = _three(bench, bore=_round(bench))
    alone = bench.summary(bench.sheet(*readings), "ovality")
    passed = bench.summary(bench.sheet(*readings, gauges=(Gauge("go", 41.0, 0.001, "enters_fully"),)), "ovality")
    assert passed.high < 0.65 * alone.high
    assert passed.high < 2 * (41.012 - 41.0) + 0.010


def test_a_go_that_passed_bounds_the_inscribed_diameter_from_below(bench) -> None:
    sheet = bench.sheet(*_three(bench, bore=_round(bench)), gauges=(Gauge("go", 41.0, 0.001, "enters_fully"),))
    assert bench.summary(sheet, "inscribed").low > 41.0 - 0.002


def test_a_plug_that_did_not_enter_bounds_the_mouth_and_never_the_widest(bench) -> None:
    readings = _three(bench, bore=_round(bench))
    refused = bench.sheet(*readings, gauges=(Gauge("no_go", 41.0, 0.001, "did_not_enter"),))
    assert bench.summary(refused, "inscribed").high < 41.0 + 0.003
    assert bench.summary(refused, "widest").high >= bench.summary(bench.sheet(*readings), "widest").high - 0.001


def test_a_plug_that_stopped_is_as_good_as_a_reading(bench) -> None:
    readings = _three(bench)
    stuck = Gauge("go", 40.990, 0.0005, "entered_to", depth=7.699)
    made = bench.draws(bench.sheet(*readings, gauges=(stuck,)))
    there = summarise(made.axis.narrowest(7.699) - made.loss, made.weights, made.effective_count)
    assert there.value == pytest.approx(40.990, abs=0.0002)
    assert _width(there) == pytest.approx(2 * 1.96 * 0.0005, rel=0.25)


def test_the_bore_stops_a_plug_of_its_inscribed_size_where_the_taper_says(bench) -> None:
    lost = np.hypot(0.020, 0.010)
    assert (41.012 - lost - 40.990) / 0.0012 + 8 == pytest.approx(7.699, abs=0.001)


def test_a_short_go_proves_nothing_deeper(bench) -> None:
    readings = _three(bench, bore=_round(bench), u=0.004)
    through = bench.sheet(*readings, gauges=(Gauge("go", 41.005, 0.001, "enters_fully"),))
    short = bench.sheet(*readings, gauges=(Gauge("go", 41.005, 0.001, "enters_fully", length=4.0),))
    assert bench.summary(short, "inscribed").low < bench.summary(through, "inscribed").low


def test_a_gauge_that_cannot_be_right_leaves_the_readings_as_they_are(bench) -> None:
    sheet = bench.sheet(*_three(bench), *_two(bench))
    impossible = sheet._replace(gauges=(Gauge("go", 41.1, 0.001, "enters_fully"),))
    assert bench.summary(impossible, "inscribed") == bench.summary(sheet, "inscribed")


def test_a_full_turn_closes_ovality_beside_three_point_readings(bench) -> None:
    span = Span(41.012 - 0.022, 41.012 + 0.022, "two", TWO, 8.0, 0.001)
    ovality = bench.summary(bench.sheet(*_three(bench), spans=(span,)), "ovality")
    assert ovality.low < 0.044 < ovality.high
    assert _width(ovality) < 0.008


def test_a_full_turn_closes_what_two_turns_at_right_angles_left_open(bench) -> None:
    readings = bench.read(TWO, (0, 90), (3, 13))
    span = Span(41.012 - np.hypot(0.02, 0.01), 41.012 + np.hypot(0.02, 0.01), "two", TWO, 8.0, 0.001)
    before = bench.summary(bench.sheet(*readings), "ovality")
    after = bench.summary(bench.sheet(*readings, spans=(span,)), "ovality")
    assert _width(after) < 0.3 * _width(before)
    assert after.low < 2 * np.hypot(0.02, 0.01) < after.high


def test_the_range_of_loose_readings_bounds_ovality_from_below_only(bench) -> None:
    loose = Span(40.990, 41.010, "two", TWO, 8.0, 0.001, full_turn=False)
    ovality = bench.summary(bench.sheet(spans=(loose,)), "ovality")
    assert 0.017 < ovality.low < 0.0215
    assert ovality.high > 0.045


@pytest.mark.parametrize("field", ["mean", "inscribed", "ovality", "taper"])
@pytest.mark.parametrize(("sees", "turn", "depth"), [(TWO, 0, 5), (TWO, 60, 13), (TWO, 100, 8), (THREE, 10, 3)])
def test_a_reading_that_agrees_never_widens_an_interval(bench, field: str, sees, turn, depth) -> None:
    readings = [*_three(bench), *_two(bench)]
    before = bench.summary(bench.sheet(*readings), field)
    after = bench.summary(bench.sheet(*readings, *bench.read(sees, (turn,), (depth,))), field)
    assert _width(after) <= _width(before) + 2 * before.sampling_error


def test_too_few_scores_are_refused(bench) -> None:
    sheet = bench.sheet(*_three(bench))
    with pytest.raises(ValueError, match="10 columns"):
        draw(posterior(sheet), sheet, normal_scores(9))
