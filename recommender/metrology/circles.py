"""Reference circles of measured points (ISO 12181-1): least squares, inscribed, circumscribed, minimum zone.

Exhaustive over a few points at a time, where a search could stop at a local best. All in mm, points of shape (n, 2).
"""

from collections.abc import Callable
from itertools import combinations
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from recommender.metrology.normal import Array

ROUNDS = 50
TINY = 1e-12
FEWEST = 3
START = 6


class Circle(NamedTuple):
    """Centre and diameter in mm."""

    x: float
    y: float
    diameter: float


class Zone(NamedTuple):
    """Centre of two circles that hold all points, and their radial difference in mm."""

    x: float
    y: float
    width: float


def least_squares(points: Array) -> Circle:
    """Return the circle with the least sum of squared radial distances (Gauss-Newton)."""
    _check(points)
    middle = points.mean(axis=0)
    centre, radius = np.zeros(2), float(_distances(points, middle).mean())
    for _ in range(ROUNDS):
        out = points - middle - centre
        distance = np.hypot(*out.T)
        design = np.column_stack([out / distance[:, None], np.ones(len(points))])
        step = np.linalg.lstsq(design, distance - radius, rcond=None)[0]
        centre, radius = centre + step[:2], radius + float(step[2])
        if np.max(np.abs(step)) < TINY * radius:
            break
    return Circle(float(middle[0] + centre[0]), float(middle[1] + centre[1]), 2 * radius)


def maximum_inscribed(points: Array) -> Circle:
    """Return the largest circle among the points with none inside, held by three of them all round.

    Every circle through three points that stand around its centre and with no point inside is a local best; the
    largest of them all is returned, not the nearest to a start.
    """
    centre = _grown(points, _inscribed_centre, near=True, far=False)
    return _circle(centre, float(_distances(points, centre).min()))


def minimum_circumscribed(points: Array) -> Circle:
    """Return the smallest circle that holds all points, standing on two or three of them."""
    centre = _grown(points, _circumscribed_centre, near=False, far=True)
    return _circle(centre, float(_distances(points, centre).max()))


def minimum_zone(points: Array) -> Zone:
    """Return the two concentric circles closest together that hold all points.

    The best centre lies as far from two points outside as from each other and the same for two inside, or is that of
    the inscribed or circumscribed circle.
    """
    centre = _grown(points, _zone_centre, near=True, far=True)
    return Zone(float(centre[0]), float(centre[1]), float(np.ptp(_distances(points, centre))))


def _grown(points: Array, solve: Callable[[Array], Array], *, near: bool, far: bool) -> Array:
    """Return the best centre for all points, solved for a few of them and those they leave out one by one.

    The best for some of the points cannot be worse than for all; once it holds for all it is the best for all.
    """
    _check(points)
    chosen = _spread(points)
    while True:
        centre = solve(points[chosen])
        distances = _distances(points, centre)
        held, slack = distances[chosen], TINY * distances.max()
        missed = set()
        if near and distances.min() < held.min() - slack:
            missed.add(int(np.argmin(distances)))
        if far and distances.max() > held.max() + slack:
            missed.add(int(np.argmax(distances)))
        if not missed:
            return centre
        chosen = sorted({*chosen, *missed})


def _spread(points: Array) -> list[int]:
    """Return the indices of points spread evenly round their middle, and of the nearest and farthest from it."""
    out = points - points.mean(axis=0)
    order = np.argsort(np.arctan2(out[:, 1], out[:, 0]), kind="stable")
    places = np.linspace(0, len(points), min(START, len(points)), endpoint=False).astype(int)
    far = np.hypot(*out.T)
    return sorted({*order[places].tolist(), int(np.argmin(far)), int(np.argmax(far))})


def _inscribed_centre(points: Array) -> Array:
    centres, radii, around = _through_three(points)
    empty = around & (_nearest(points, centres) >= radii * (1 - TINY))
    if not np.any(empty):
        raise ValueError("no circle is held between these points; they do not go round")
    best: Array = centres[np.argmax(np.where(empty, radii, -np.inf))]
    return best


def _circumscribed_centre(points: Array) -> Array:
    three, three_radii, _ = _through_three(points)
    first, second = points[_subsets(len(points), 2)].transpose(1, 0, 2)
    centres = np.concatenate([three, (first + second) / 2])
    radii = np.concatenate([three_radii, np.hypot(*(first - second).T) / 2])
    holding = _farthest(points, centres) <= radii * (1 + TINY)
    best: Array = centres[np.argmin(np.where(holding, radii, np.inf))]
    return best


def _zone_centre(points: Array) -> Array:
    held = np.stack([_inscribed_centre(points), _circumscribed_centre(points)])
    centres = np.concatenate([held, _crossings(points)])
    best: Array = centres[np.argmin(_farthest(points, centres) - _nearest(points, centres))]
    return best


def _check(points: Array) -> None:
    if points.ndim != 2 or points.shape[1] != 2 or len(points) < FEWEST:
        raise ValueError(f"a circle needs at least {FEWEST} points of two coordinates")


def _subsets(count: int, size: int) -> NDArray[np.intp]:
    return np.array(list(combinations(range(count), size)), dtype=np.intp)


def _distances(points: Array, centre: Array) -> Array:
    found: Array = np.hypot(*(points - centre).T)
    return found


def _nearest(points: Array, centres: Array) -> Array:
    return _extreme(points, centres, np.minimum, np.inf)


def _farthest(points: Array, centres: Array) -> Array:
    return _extreme(points, centres, np.maximum, 0.0)


def _extreme(points: Array, centres: Array, pick: np.ufunc, start: float) -> Array:
    found: Array = np.full(len(centres), start)
    for point in points:
        found = pick(found, _distances(centres, point))
    return found


def _through_three(points: Array) -> tuple[Array, Array, NDArray[np.bool_]]:
    """Return centres, radii and whether the three points stand around the centre, of all circles through three."""
    one, two, three = points[_subsets(len(points), 3)].transpose(1, 0, 2)
    to_two, to_three = two - one, three - one
    twice_area = to_two[:, 0] * to_three[:, 1] - to_two[:, 1] * to_three[:, 0]
    good = np.abs(twice_area) > TINY * np.abs(points - points.mean(axis=0)).max() ** 2
    one, to_two, to_three, twice_area = one[good], to_two[good], to_three[good], twice_area[good]
    square_two, square_three = (np.sum(each**2, axis=1) for each in (to_two, to_three))
    across = np.stack([
        to_three[:, 1] * square_two - to_two[:, 1] * square_three,
        to_two[:, 0] * square_three - to_three[:, 0] * square_two,
    ], axis=1) / (2 * twice_area[:, None])
    sides = np.stack([square_two, square_three, np.sum((to_three - to_two) ** 2, axis=1)])
    around = 2 * sides.max(axis=0) <= sides.sum(axis=0) * (1 + TINY)
    return one + across, np.hypot(*across.T), around


def _crossings(points: Array) -> Array:
    """Return where the bisectors of each two pairs of points cross, shape (count, 2)."""
    ends = points[_subsets(len(points), 2)]
    normals, offsets = ends[:, 1] - ends[:, 0], np.sum(ends[:, 1] ** 2 - ends[:, 0] ** 2, axis=1) / 2
    one, two = np.triu_indices(len(normals), 1)
    (ax, ay), (bx, by) = normals[one].T, normals[two].T
    determinant = ax * by - ay * bx
    good = np.abs(determinant) > TINY * np.abs(normals).max() ** 2
    x = offsets[one] * by - ay * offsets[two]
    y = ax * offsets[two] - offsets[one] * bx
    found: Array = np.stack([x[good], y[good]], axis=1) / determinant[good][:, None]
    return found


def _circle(centre: Array, radius: float) -> Circle:
    return Circle(float(centre[0]), float(centre[1]), 2 * float(radius))
