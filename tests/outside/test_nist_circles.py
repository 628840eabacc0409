"""Reference circles of published test data.

Source: NIST algorithm testing system, least-squares test data with reference fits for 2-D circles (nist.gov, algorithm
testing and evaluation program; the data sets as kept in the public repository github.com/zdavkeos/balyrond, folder
nist/Circle2d), set cir2d16. NIST publishes the least-squares fit only; inscribed and circumscribed circle and minimum
zone of the same points were worked out by linear programming, by exhaustive search and over Voronoi vertices.
"""

import numpy as np
import pytest
from scipy.spatial import Voronoi

from recommender.metrology.circles import least_squares, maximum_inscribed, minimum_circumscribed, minimum_zone

POINTS = np.array(
    [
        (-495.10298, -256.71324),
        (-482.04370, -269.48596),
        (-463.91281, -267.23694),
        (-454.37411, -251.65384),
        (-460.60945, -234.48887),
        (-477.90962, -228.66262),
        (-493.26078, -238.55044),
    ]
)


def test_least_squares_circle_is_the_reference_fit() -> None:
    found = least_squares(POINTS)
    assert found.diameter == pytest.approx(42.09190901332554, abs=1e-9)
    assert (found.x, found.y) == pytest.approx((-475.3143729117, -249.5462502608), abs=1e-9)


def test_inscribed_circle() -> None:
    found = maximum_inscribed(POINTS)
    assert found.diameter == pytest.approx(42.089474750521, abs=1e-9)
    assert (found.x, found.y) == pytest.approx((-475.31307704, -249.54655966), abs=1e-8)


def test_inscribed_circle_is_the_largest_of_all_voronoi_vertices() -> None:
    inside = [vertex for vertex in Voronoi(POINTS).vertices if np.hypot(*(vertex - POINTS.mean(axis=0))) < 10]
    largest = max(2 * np.hypot(*(POINTS - vertex).T).min() for vertex in inside)
    assert maximum_inscribed(POINTS).diameter == pytest.approx(largest, abs=1e-9)


def test_circumscribed_circle() -> None:
    assert minimum_circumscribed(POINTS).diameter == pytest.approx(42.093565433651, abs=1e-9)


def test_minimum_zone_and_deviation_about_the_least_squares_centre() -> None:
    assert minimum_zone(POINTS).width == pytest.approx(0.002552021951, abs=1e-9)
    middle = least_squares(POINTS)
    assert np.ptp(np.hypot(*(POINTS - [middle.x, middle.y]).T)) == pytest.approx(0.002852135342, abs=1e-9)
