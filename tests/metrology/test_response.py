import numpy as np
import pytest

from recommender.metrology.circles import maximum_inscribed, minimum_circumscribed
from recommender.metrology.response import lobed, three_point, two_point

RADIUS, AMPLITUDE = 20.5, 0.010
NARROW, MEAN, WIDE = 40.980, 41.000, 41.020


def _swing(lobes: int) -> tuple[list[float], list[float]]:
    section = lobed(RADIUS, (lobes, AMPLITUDE, 0.0))
    turns = np.arange(0.0, 360.0, 1.0)
    two = [two_point(section, turn) for turn in turns]
    three = [three_point(section, turn).value for turn in turns]
    return two, three


@pytest.mark.parametrize(
    ("lobes", "two_sees", "three_sees"),
    [(2, True, False), (3, False, True), (4, True, False), (5, False, False), (6, True, True), (7, False, False),
     (8, True, False), (9, False, True)],
)
def test_what_each_instrument_sees_of_lobes(lobes: int, two_sees: bool, three_sees: bool) -> None:
    two, three = _swing(lobes)
    expected = {True: (NARROW, WIDE), False: (MEAN, MEAN)}
    assert (min(two), max(two)) == pytest.approx(expected[two_sees], abs=1e-4)
    assert (min(three), max(three)) == pytest.approx(expected[three_sees], abs=1e-4)


@pytest.mark.parametrize("lobes", range(2, 10))
def test_inscribed_and_circumscribed_circle_of_one_kind_of_lobes(lobes: int) -> None:
    angles = np.arange(120 * lobes) * 2 * np.pi / (120 * lobes)
    radius = lobed(RADIUS, (lobes, AMPLITUDE, 0.0))(angles)
    points = np.stack([radius * np.cos(angles), radius * np.sin(angles)], axis=1)
    assert maximum_inscribed(points).diameter == pytest.approx(NARROW, abs=1e-4)
    assert minimum_circumscribed(points).diameter == pytest.approx(WIDE, abs=1e-4)


@pytest.mark.parametrize("turn", [0.0, 17.0, 71.0, 200.0])
def test_three_point_head_in_an_oval_bore_reads_the_mean_and_its_axis_orbits(turn: float) -> None:
    read = three_point(lobed(20.5, (2, 0.025, 0.0)), turn)
    assert (read.value - 41.0) * 1000 == pytest.approx(-0.0762, abs=0.0005)
    assert np.hypot(*read.axis) == pytest.approx(0.025, abs=1e-4)


def test_three_point_head_stays_in_the_middle_of_a_three_lobed_bore() -> None:
    read = three_point(lobed(20.5, (3, 0.025, 40.0)), 11.0)
    assert np.hypot(*read.axis) < 1e-9


@pytest.mark.parametrize(("lobes", "expected"), [(4, 0.1067), (5, -0.1677), (7, 0.1982)])
def test_second_order_of_lobes_a_three_point_head_does_not_see(lobes: int, expected: float) -> None:
    read = three_point(lobed(20.5, (lobes, 0.025, 0.0)), 33.0)
    assert (read.value - 41.0) * 1000 == pytest.approx(expected, abs=0.0005)


def test_contacts_of_the_head_lie_on_the_section() -> None:
    section = lobed(20.5, (2, 0.05, 10.0), (3, 0.03, 70.0), (5, 0.01, 0.0))
    read = three_point(section, 25.0)
    for turn in (25.0, 145.0, 265.0):
        x = read.axis[0] + read.value / 2 * np.cos(np.radians(turn))
        y = read.axis[1] + read.value / 2 * np.sin(np.radians(turn))
        assert np.hypot(x, y) == pytest.approx(float(section(np.array(np.arctan2(y, x)))), abs=1e-10)


def test_a_section_far_from_round_is_refused() -> None:
    with pytest.raises(ValueError, match="too far from round"):
        three_point(lobed(1.0, (2, 0.9, 0.0)), 20.0)
