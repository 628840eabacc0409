"""Grip, push-in force and the load that opens a seat, derived."""

import pytest

from recommender.mechanics.grip import (
    axial_capacity,
    bearing_loads,
    chain_pull,
    drive_side_load,
    gap_starts_at,
    no_gap_pressure,
    pressure_from_push_in,
    push_in_force,
    torque_capacity,
)


def test_force_and_torque_by_hand() -> None:
    assert axial_capacity(6.0, 0.15, 46.0, 10.0) == pytest.approx(1301, abs=0.5)
    assert torque_capacity(6.0, 0.15, 46.0, 10.0) == pytest.approx(29_900, abs=50)


def test_push_in_force_gives_the_pressure_back() -> None:
    force = push_in_force(6.0, 0.15, 46.0, 10.0)
    assert pressure_from_push_in(force, 0.15, 46.0, 10.0) == pytest.approx(6.0)
    assert push_in_force(-1.0, 0.15, 46.0, 10.0) == 0.0


def test_axial_demand_without_a_stop() -> None:
    """Side load 144 N plus preload 300 N, twice, at friction 0.12, asks for 5.1 MPa."""
    assert pressure_from_push_in(890.0, 0.12, 46.0, 10.0) == pytest.approx(5.1, abs=0.05)


def test_pedal_force_on_two_bearings() -> None:
    assert bearing_loads(1100.0, 150.0, 61.0) == pytest.approx((3255, -2155), rel=1e-3)
    assert bearing_loads(1200.0, 150.0, 61.0) == pytest.approx((3551, -2351), rel=1e-3)


@pytest.mark.parametrize(
    ("force", "span", "expected"), [(1100.0, 61.0, 3953), (1200.0, 61.0, 4312), (1100.0, 79.5, 3262)]
)
def test_drive_side_resultant(force: float, span: float, expected: float) -> None:
    """Chainring of 50 teeth, crank 170 mm, chain line 43.5 mm."""
    assert drive_side_load(force, 150.0, span, 170.0, 50, 43.5) == pytest.approx(expected, rel=1e-3)


def test_chain_pull_by_hand() -> None:
    assert chain_pull(1100.0, 170.0, 50) == pytest.approx(1849, abs=1)
    with pytest.raises(ValueError, match="three teeth"):
        chain_pull(1100.0, 170.0, 2)


@pytest.mark.parametrize(
    ("radius", "length", "offset", "expected"),
    [(21.0, 7.0, 0.0, 8.6), (23.0, 10.0, 0.0, 5.5), (20.5, 10.0, 0.0, 6.1), (20.5, 10.0, 3.0, 17.2)],
)
def test_pressure_that_keeps_the_seat_closed(radius: float, length: float, offset: float, expected: float) -> None:
    assert no_gap_pressure(3953.0, radius, length, offset) == pytest.approx(expected, abs=0.05)


def test_pedal_force_at_which_the_seat_gaps() -> None:
    assert gap_starts_at(no_gap_pressure(3953.0, 21.0, 7.0), 3953.0 / 1100.0, 21.0, 7.0) == pytest.approx(1100.0)
    assert gap_starts_at(-2.0, 3.6, 21.0, 7.0) == 0.0
