import numpy as np
import pytest
from scipy.optimize import linprog

from recommender.metrology.circles import least_squares, maximum_inscribed, minimum_circumscribed, minimum_zone
from recommender.metrology.inscribed import lean, loss, losses
from recommender.metrology.response import lobed


@pytest.mark.parametrize(
    ("two", "three", "expected"),
    [(1.0, 0.0, 1.0), (1.0, 0.5, 1.0), (1.0, 1.0, 1.25), (1.0, 2.0, 2.125), (1.0, 4.0, 4.0625), (0.0, 3.0, 3.0),
     (0.0, 0.0, 0.0)],
)
def test_loss_of_two_and_three_lobes(two: float, three: float, expected: float) -> None:
    assert float(loss(two, three)) == pytest.approx(expected)


@pytest.mark.parametrize("phase", [0.0, 13.0, 45.0, 100.0])
@pytest.mark.parametrize("three", [0.0, 0.3, 0.5, 1.0, 2.5])
def test_loss_is_that_of_linear_programming_whatever_the_phase(three: float, phase: float) -> None:
    angles = np.arange(1440) * 2 * np.pi / 1440
    form = np.cos(2 * angles) + three * np.cos(3 * angles + np.radians(phase))
    rows = np.stack([np.ones_like(angles), np.cos(angles), np.sin(angles)], axis=1)
    found = linprog([-1, 0, 0], A_ub=rows, b_ub=form, bounds=[(None, None)] * 3)
    assert -found.x[0] == pytest.approx(float(loss(1.0, three)), abs=2e-4)


def _exact_loss(two: float, three: float, five: float, phases) -> float:
    angles = np.arange(240) * 2 * np.pi / 240
    rows = np.stack([np.ones_like(angles), np.cos(angles), np.sin(angles)], axis=1)
    form = two * np.cos(2 * angles) + three * np.cos(3 * angles + phases[0]) + five * np.cos(5 * angles + phases[1])
    return -float(linprog([-1, 0, 0], A_ub=rows, b_ub=form, bounds=[(None, None)] * 3).x[0])


def _bounds(two: float, three: float, five: float) -> tuple[float, float]:
    found = losses(*(np.array([float(each)]) for each in (two, three, five)))
    return float(found.least[0]), float(found.most[0])


def test_five_lobes_never_take_more_than_the_most_and_that_is_less_than_their_sum() -> None:
    random = np.random.default_rng(2)
    for _ in range(150):
        lobes = random.rayleigh(8), random.rayleigh(5), random.rayleigh(2)
        most = _bounds(*lobes)[1]
        assert _exact_loss(*lobes, random.uniform(0, 2 * np.pi, 2)) < most + 0.01
        assert most < float(loss(*lobes[:2])) + lobes[2]


@pytest.mark.parametrize("lobes", [(10, 1, 2), (3, 8, 2), (2, 1, 3), (4, 4, 4)])
def test_five_lobes_take_on_average_no_less_than_the_least(lobes: tuple[float, float, float]) -> None:
    turned = [_exact_loss(*lobes, (0.4, phase)) for phase in np.arange(40) * 2 * np.pi / 40]
    assert np.mean(turned) > _bounds(*lobes)[0] - 0.01


@pytest.mark.parametrize(
    ("two", "three", "five", "expected"), [(0, 0, 2, 2.0), (8, 5, 0, 8.2), (8, 0, 0, 8.0), (0, 5, 0, 5.0)]
)
def test_one_or_two_kinds_of_lobes_leave_nothing_open(two: float, three: float, five: float, expected: float) -> None:
    assert _bounds(two, three, five) == pytest.approx((expected, expected), rel=3e-4)


def test_one_section_by_formula_and_by_its_points() -> None:
    section = lobed(41.018 / 2, (2, np.hypot(0.020, 0.010) / 2, np.degrees(np.arctan2(0.010, 0.020))),
                    (3, 0.005, np.degrees(np.arctan2(-0.008, 0.006))))
    angles = np.arange(3600) * 2 * np.pi / 3600
    radius = section(angles)
    points = np.stack([radius * np.cos(angles), radius * np.sin(angles)], axis=1)
    lost = float(loss(np.hypot(0.020, 0.010), 0.010))
    middle = least_squares(points)
    assert middle.diameter == pytest.approx(41.018, abs=1e-5)
    assert 41.018 - lost == pytest.approx(40.995639, abs=1e-6)
    assert maximum_inscribed(points).diameter == pytest.approx(41.018 - lost, abs=1e-5)
    assert minimum_circumscribed(points).diameter == pytest.approx(41.018 + lost, abs=2e-5)
    assert minimum_zone(points).width * 1000 == pytest.approx(25.842, abs=0.01)
    assert np.ptp(np.hypot(*(points - [middle.x, middle.y]).T)) * 1000 == pytest.approx(29.583, abs=0.01)


@pytest.mark.parametrize(
    ("two", "three", "five"), [(10, 5, 2), (10, 3, 2), (5, 5, 2), (3, 8, 2), (5, 3, 4), (10, 6, 6)])
def test_five_lobes_take_on_average_what_is_drawn_for_them(two: float, three: float, five: float) -> None:
    random = np.random.default_rng(3)
    exact = np.mean([_exact_loss(two, three, five, random.uniform(0, 2 * np.pi, 2)) for _ in range(80)])
    least, most = _bounds(two, three, five)
    place = np.linspace(0.005, 0.995, 100) ** lean(*(np.array([float(each)]) for each in (two, three, five)))
    assert least + (most - least) * float(place.mean()) == pytest.approx(exact, abs=0.1 * five)
