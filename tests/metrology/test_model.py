import numpy as np
import pytest

from recommender.metrology.model import posterior
from recommender.metrology.rows import BOW, FIVE_LOBES, SIZE, TAPER, THREE_LOBES, TWO_LOBES, coefficients, rows
from recommender.metrology.sheet import Assumptions, Reading, Span

OPEN = Assumptions(ovality_sd=1e3, lobing_sd=1e3, five_lobe_sd=1e-9, curvature_sd=1e-9, taper_sd=1e3)
DEPTHS, TWO_TURNS, THREE_TURNS = (3, 13), (0, 60, 120), (0, 40, 80)


def _grid(bench, **options):
    return (*bench.read("two_point", TWO_TURNS, DEPTHS, **options),
            *bench.read("three_point", THREE_TURNS, DEPTHS, **options))


def test_what_the_instruments_read_of_the_bore(bench) -> None:
    two = [reading.value for reading in bench.read("two_point", TWO_TURNS, (3,))]
    three = [reading.value for reading in bench.read("three_point", THREE_TURNS, (3,))]
    assert two == pytest.approx([41.03800, 40.99934, 41.01666], abs=1e-5)
    assert three == pytest.approx([41.02400, 41.02193, 41.00807], abs=1e-5)
    deeper = [reading.value for reading in bench.read("two_point", TWO_TURNS, (13,))]
    assert np.subtract(deeper, two) == pytest.approx(-0.012, abs=1e-12)


def test_exact_readings_give_the_bore_back(bench) -> None:
    readings = [*bench.read("two_point", TWO_TURNS, (3, 8, 13), u=1e-7, offset_u=0),
                *bench.read("three_point", THREE_TURNS, (3, 8, 13), u=1e-7, offset_u=0)]
    assert posterior(bench.sheet(*readings)).mean == pytest.approx(bench.bore, abs=1e-9)


def test_standard_deviations_of_the_plan_of_twelve(bench) -> None:
    readings = (*bench.read("two_point", TWO_TURNS, DEPTHS, u=0.004, offset_u=0),
                *bench.read("three_point", THREE_TURNS, DEPTHS, u=0.002, offset_u=0))
    found = posterior(bench.sheet(*readings, assumptions=OPEN))
    deviations = np.sqrt(np.diag(found.covariance)) * 1000
    assert deviations[SIZE] == pytest.approx(0.7303, abs=1e-4)
    assert deviations[TAPER] == pytest.approx(0.14606, abs=1e-5)
    assert deviations[list(TWO_LOBES)] == pytest.approx(2.3094, abs=1e-4)
    assert deviations[list(THREE_LOBES)] == pytest.approx(1.1547, abs=1e-4)


def test_an_error_all_readings_share_stays_in_the_size_and_out_of_the_form(bench) -> None:
    alone = posterior(bench.sheet(*bench.read("two_point", TWO_TURNS, DEPTHS, offset_u=0)))
    shared = posterior(bench.sheet(*bench.read("two_point", TWO_TURNS, DEPTHS, offset_u=0.003)))
    added = shared.covariance - alone.covariance
    assert added[SIZE, SIZE] == pytest.approx(0.003**2, rel=1e-6)
    added[SIZE, SIZE] = 0
    assert np.abs(added).max() < 1e-12


def test_what_no_reading_saw_keeps_its_assumption(bench) -> None:
    mild = 0.2 * (bench.bore - np.array([41.012, *[0.0] * 8])) + np.array([41.012, *[0.0] * 8])
    found = posterior(bench.sheet(*bench.read("three_point", THREE_TURNS, DEPTHS, bore=mild)))
    deviations = np.sqrt(np.diag(found.covariance))
    assert deviations[list(TWO_LOBES)] == pytest.approx(0.008)
    assert deviations[list(FIVE_LOBES)] == pytest.approx(0.002)
    assert found.mean[list(TWO_LOBES)] == pytest.approx(0.0, abs=1e-15)


def test_a_bore_worse_than_assumed_is_taken_to_be_worse_where_nothing_can_be_seen(bench) -> None:
    found = posterior(bench.sheet(*_grid(bench, bore=3 * bench.bore - np.array([82.024, *[0.0] * 8]))))
    deviations = np.sqrt(np.diag(found.covariance))
    assert np.all(deviations[list(FIVE_LOBES)] > 0.004)


def test_an_assumption_does_not_shrink_what_was_seen(bench) -> None:
    oval = bench.bore.copy()
    oval[list(TWO_LOBES)] = 0.060, 0.0
    found = posterior(bench.sheet(*_grid(bench, bore=oval)))
    assert np.hypot(*found.mean[list(TWO_LOBES)]) == pytest.approx(0.060, abs=0.0001)


def test_form_seen_from_one_side_widens_what_is_assumed_of_the_other(bench) -> None:
    oval = bench.bore.copy()
    oval[list(TWO_LOBES)] = 0.060, 0.0
    found = posterior(bench.sheet(*bench.read("two_point", (0, 90), DEPTHS, bore=oval)))
    assert np.sqrt(found.covariance[TWO_LOBES[1], TWO_LOBES[1]]) > 0.035


def test_a_bow_is_measured_at_mid_seat_and_nothing_at_the_ends(bench) -> None:
    assert coefficients(8.0, bench.seat)[BOW] == 1.0
    assert coefficients(0.0, bench.seat)[BOW] == coefficients(16.0, bench.seat)[BOW] == 0.0


def test_a_full_turn_shows_size_and_amplitude(bench) -> None:
    span = Span(40.990, 41.034, "two", "two_point", 8.0, 0.001)
    found = posterior(bench.sheet(spans=(span,)))
    assert found.mean[SIZE] + found.mean[BOW] == pytest.approx(41.012, abs=1e-6)
    assert np.hypot(*found.mean[list(TWO_LOBES)]) == pytest.approx(0.022, abs=1e-4)
    assert np.sqrt(found.covariance[TWO_LOBES[0], TWO_LOBES[0]]) == pytest.approx(0.001 / np.sqrt(2), rel=0.01)


def test_loose_readings_are_no_closer_than_the_form_they_may_hide(bench) -> None:
    loose = Span(41.0, 41.002, "mic", "three_point", 8.0, 0.001, full_turn=False)
    found = posterior(bench.sheet(spans=(loose,)))
    assert np.sqrt(found.covariance[SIZE, SIZE]) > bench.defaults.lobing_sd


def test_a_wide_swing_of_loose_readings_is_doubt_of_their_mean_and_form_that_may_be_there(bench) -> None:
    """20 um to either side; what the gauge itself swings, 1.4 um, is no form."""
    loose = Span(40.980, 41.020, "mic", "three_point", 8.0, 0.001, full_turn=False)
    (row,) = rows(bench.sheet(spans=(loose,)))
    assert row.variance == pytest.approx(0.020**2 + 0.001**2)
    unseen = posterior(bench.sheet(spans=(loose,))).covariance[THREE_LOBES[0], THREE_LOBES[0]]
    assert np.sqrt(unseen) == pytest.approx(0.020 - np.sqrt(2) * 0.001, rel=1e-6)


def test_beside_readings_at_known_turns_the_middle_of_a_full_turn_is_the_mean_of_two(bench) -> None:
    span = Span(40.990, 41.034, "two", "two_point", 8.0, 0.003)
    found = rows(bench.sheet(*bench.read("two_point", (0,), (3,), u=0.002), spans=(span,)))
    assert [(each.value, each.variance) for each in found if each.source == 1] == [
        (pytest.approx(41.012), pytest.approx(0.003**2 / 2))]


def test_a_reading_without_turn_counts_as_loose(bench) -> None:
    reading = Reading(41.0, "mic", "three_point", 8.0, None, 0.001)
    span = Span(41.0, 41.0, "mic", "three_point", 8.0, 0.001, full_turn=False)
    one, two = posterior(bench.sheet(reading)), posterior(bench.sheet(spans=(span,)))
    assert np.array_equal(one.covariance, two.covariance)


def test_an_unknown_depth_costs_the_taper_it_may_hide(bench) -> None:
    known = posterior(bench.sheet(spans=(Span(41.0, 41.0, "two", "two_point", 8.0, 0.001),)))
    unknown = posterior(bench.sheet(spans=(Span(41.0, 41.0, "two", "two_point", None, 0.001),)))
    extra = unknown.covariance[SIZE, SIZE] - known.covariance[SIZE, SIZE]
    assert extra == pytest.approx((0.004 * 16) ** 2 / 12, rel=1e-6)


@pytest.mark.parametrize("case", ["empty", "certain", "assumed nothing"])
def test_sheets_that_cannot_be_worked_out_are_refused(bench, case: str) -> None:
    readings = {"empty": (), "certain": (Reading(41.0, "mic", "three_point", 8.0, 0.0, 0.0),)}.get(
        case, bench.read("three_point", (0,), (8,)))
    assumed = bench.defaults._replace(ovality_sd=0.0) if case == "assumed nothing" else bench.defaults
    with pytest.raises(ValueError, match=r"nothing was read|above zero"):
        posterior(bench.sheet(*readings, assumptions=assumed))
