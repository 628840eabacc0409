import numpy as np
import pytest
from scipy.optimize import minimize
from scipy.spatial import Voronoi

from recommender.metrology.circles import least_squares, maximum_inscribed, minimum_circumscribed, minimum_zone
from recommender.metrology.normal import Array


def _scan(seed: int, count: int, form: float = 0.02) -> Array:
    angles = np.arange(count) * 2 * np.pi / count
    radius = 20 + form * np.random.default_rng(seed).normal(size=count)
    return np.stack([3 + radius * np.cos(angles), radius * np.sin(angles) - 5], axis=1)


def _voronoi_inscribed(points: Array) -> float:
    best = 0.0
    for vertex in Voronoi(points).vertices:
        if np.hypot(*(vertex - [3, -5])) < 5:
            best = max(best, 2 * float(np.hypot(*(points - vertex).T).min()))
    return best


def _searched(points: Array) -> tuple[float, float]:
    """Circumscribed diameter and zone width by constrained search from the middle of the points."""
    def distances(at: Array) -> Array:
        return np.hypot(*(points - at[:2]).T)

    middle = points.mean(axis=0)
    start = distances(middle)
    outside = {"type": "ineq", "fun": lambda at: at[2] - distances(at)}
    inside = {"type": "ineq", "fun": lambda at: distances(at) - at[3]}
    close = {"ftol": 1e-15, "maxiter": 1000}
    hull = minimize(lambda at: at[2], [*middle, start.max()], constraints=[outside], method="SLSQP", options=close)
    zone = minimize(lambda at: at[2] - at[3], [*middle, start.max(), start.min()], constraints=[outside, inside],
                    method="SLSQP", options=close)
    return 2 * hull.fun, zone.fun


@pytest.mark.parametrize("seed", range(6))
def test_inscribed_circle_is_the_largest_of_all_voronoi_vertices(seed: int) -> None:
    points = _scan(seed, 25)
    assert maximum_inscribed(points).diameter == pytest.approx(_voronoi_inscribed(points), abs=1e-9)


@pytest.mark.parametrize("seed", range(6))
def test_circumscribed_circle_and_zone_are_those_of_a_search(seed: int) -> None:
    points = _scan(seed, 30)
    circumscribed, width = _searched(points)
    assert minimum_circumscribed(points).diameter == pytest.approx(circumscribed, abs=1e-7)
    assert minimum_zone(points).width == pytest.approx(width, abs=1e-7)


@pytest.mark.parametrize("seed", range(3))
def test_every_circle_is_as_wide_as_it_says_about_its_own_centre(seed: int) -> None:
    points = _scan(seed, 30) + np.array([0.3, -0.7])
    for circle, wanted in ((minimum_circumscribed(points), np.max), (maximum_inscribed(points), np.min)):
        assert circle.diameter == pytest.approx(2 * wanted(np.hypot(*(points - [circle.x, circle.y]).T)), abs=1e-9)
    zone = minimum_zone(points)
    assert zone.width == pytest.approx(np.ptp(np.hypot(*(points - [zone.x, zone.y]).T)), abs=1e-9)


def test_the_best_inscribed_circle_is_found_where_several_are_held() -> None:
    angles = np.radians([0, 60, 120, 180, 240, 300])
    points = np.stack([20 * np.cos(angles), 20 * np.sin(angles)], axis=1) * [1.5, 1.0]
    left = np.array([[-4.0, 18.0], [-4.0, -18.0]])
    points = np.concatenate([points, left])
    held = maximum_inscribed(points)
    assert held.diameter == pytest.approx(_all_circles(points), abs=1e-9)
    assert held.x > 0


def _all_circles(points: Array) -> float:
    inside = [v for v in Voronoi(points).vertices if abs(v[0]) < 20 and abs(v[1]) < 15]
    return max(2 * float(np.hypot(*(points - v).T).min()) for v in inside)


def test_many_points_are_no_trouble() -> None:
    points = _scan(1, 720, form=0.001)
    assert maximum_inscribed(points).diameter < least_squares(points).diameter < minimum_circumscribed(points).diameter
    radii = np.hypot(*(points - [least_squares(points).x, least_squares(points).y]).T)
    assert minimum_zone(points).width <= np.ptp(radii)


def test_too_few_points_and_points_on_one_side_are_refused() -> None:
    with pytest.raises(ValueError, match="points of two coordinates"):
        least_squares(np.ones((12, 3)))
    with pytest.raises(ValueError, match="points of two coordinates"):
        least_squares(np.ones(12))
    with pytest.raises(ValueError, match="at least 3 points"):
        least_squares(np.zeros((2, 2)))
    with pytest.raises(ValueError, match="do not go round"):
        maximum_inscribed(np.array([[0.0, 1.0], [1.0, 0.0], [0.8, 0.8]]))
