"""Turning window: worked rows, derived (46 mm aluminium cup, bearing in, carbon 3 mm), and the lands."""

from dataclasses import dataclass

import pytest

from recommender.mechanics.bounds import greatest_for, greatest_for_clearance, least_for_pressure
from recommender.mechanics.rings import Ring, pressures_per_mm
from recommender.mechanics.strain import shell_hoop_strain
from recommender.mechanics.window import BoreSize, Bound, lands, named_window, od_window, step

SHELL = Ring(23.0, 26.0, 55_000.0, 0.30, 3e-6)
STACK = [Ring(19.8, 21.0, 208_000.0, 0.30, 12e-6), Ring(21.0, 23.0, 69_000.0, 0.33, 23.4e-6), SHELL]
PER_MM = pressures_per_mm(STACK)[-1]
STRAIN_PER_MM = shell_hoop_strain(SHELL, PER_MM)


@dataclass(frozen=True)
class Row:
    """One worked case: bore, its uncertainty, pressure wanted, thermal loss, strain factor, window."""

    bore: tuple[float, float]
    uncertainty: float
    pressure: float
    thermal: float
    factor: float
    expected: tuple[float, float]


ROWS = [
    Row((45.960, 46.000), 0.008, 5.47, 0.025, 1.0, (46.091, 46.136)),
    Row((45.960, 46.000), 0.008, 5.47, 0.025, 3.1, (46.091, 46.011)),
    Row((45.960, 46.000), 0.008, 2.7, 0.0, 1.92, (46.040, 46.048)),
    Row((45.985, 46.000), 0.005, 2.7, 0.0, 1.92, (46.037, 46.076)),
]


def window_of(row: Row) -> tuple[float, float]:
    least = least_for_pressure(row.pressure, PER_MM, 1.0, 0.006, row.thermal)
    greatest = greatest_for(0.003, STRAIN_PER_MM, row.factor)
    low, high = od_window(row.bore[0] - row.uncertainty, row.bore[1] + row.uncertainty, least, greatest)
    return float(low), float(high)


@pytest.mark.parametrize("row", ROWS)
def test_worked_rows(row: Row) -> None:
    assert window_of(row) == pytest.approx(row.expected, abs=6e-4)


def test_first_two_rows_to_a_tenth_of_a_micrometre() -> None:
    assert window_of(ROWS[0]) == pytest.approx((46.0909, 46.1361), abs=1e-4)
    low, high = window_of(ROWS[1])
    assert high - low == pytest.approx(-0.0795, abs=1e-4)


def test_without_an_opening_the_greatest_interference_strains_just_as_far_as_allowed() -> None:
    assert greatest_for(0.003, STRAIN_PER_MM) * STRAIN_PER_MM == pytest.approx(0.003)


def test_bearing_clearance_can_close_the_window() -> None:
    """Fifth row: C3 bearing with its seat already tight, nothing left over."""
    greatest = greatest_for_clearance(0.013, 0.0, 0.257, 0.0, 0.006)
    low, high = od_window(45.952, 46.008, least_for_pressure(5.47, PER_MM, 1.0, 0.006, 0.025), greatest)
    assert (low, high) == pytest.approx((46.091, 46.009), abs=6e-4)


def test_each_limit_is_judged_at_its_own_diameter() -> None:
    bore = BoreSize(45.950, 45.970, 45.990)
    window = named_window(
        bore,
        {"grip": Bound(0.010, "mean"), "contact": Bound(0.0, "widest")},
        {"bar": Bound(0.080, "inscribed"), "ring": Bound(0.050, "mean")},
    )
    assert window[:2] == pytest.approx((45.990, 46.020))
    assert window[2:] == ("contact", "ring")
    assert window.width == pytest.approx(0.030)


def test_empty_window_keeps_its_names() -> None:
    window = named_window(BoreSize(45.90, 45.97, 46.04), {"a": Bound(0.01, "widest")}, {"b": Bound(0.05, "inscribed")})
    assert window.width == pytest.approx(-0.10)
    assert (window.low_bound_by, window.high_bound_by) == ("a", "b")


def test_first_of_two_equal_limits_is_named() -> None:
    same = {"first": Bound(0.01, "mean"), "second": Bound(0.01, "mean")}
    assert named_window(BoreSize(1.0, 1.0, 1.0), same, same)[2:] == ("first", "first")


def test_a_window_without_a_limit_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one limit"):
        named_window(BoreSize(1.0, 1.0, 1.0), {}, {"bar": Bound(0.1, "mean")})


def test_lands_keep_their_share_of_the_taper() -> None:
    """46.062 at the face to 45.984 at 18 mm, lands of 6 mm: each sees a third of 0.078."""
    outer, inner = lands(46.062, 45.984, 18.0, 6.0, 0.010)
    assert (outer.start, outer.end, inner.start, inner.end) == (0.0, 6.0, 12.0, 18.0)
    assert (outer.mean, inner.mean) == pytest.approx((46.049, 45.997))
    assert (outer.inscribed, outer.widest) == pytest.approx((46.031, 46.067))
    assert step(outer.mean + 0.03, inner.mean + 0.03) == pytest.approx(0.052)


def test_a_bore_that_opens_inwards_steps_the_other_way() -> None:
    outer, inner = lands(45.984, 46.062, 18.0, 6.0)
    assert inner.mean > outer.mean
    assert (inner.inscribed, inner.widest) == pytest.approx((46.036, 46.062))


def test_lands_must_fit_the_seat() -> None:
    with pytest.raises(ValueError, match="fit into the depth"):
        lands(46.06, 45.98, 10.0, 5.5)
