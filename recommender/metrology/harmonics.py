"""What the points of one section say of its size and its two, three and five lobes, whatever else is in them."""

import numpy as np

from recommender.metrology.circles import least_squares
from recommender.metrology.normal import Array

MODELLED = (2, 3, 5)
PER_UNKNOWN = 3
OTHERS = (4, 6, 7, 8, 9)


def harmonics(points: Array) -> list[list[float]]:
    """Return seven rows of eight numbers (mm): a value, then how it depends on size and on the lobes' components.

    Unknowns are the mean diameter and the cosine and sine diameter amplitudes of two, three and five lobes. Least
    squares of twice the radii (n, 2) about the least squares centre, by orthogonal triangles: each row has the error
    of twice a radius, independent of the others. Shift of the centre and other lobes, as many as the points can tell
    apart, are fitted first and left out. Raises ValueError for too few points.
    """
    fitted = least_squares(points)
    out = points - np.array([fitted.x, fitted.y])
    angles, doubled = np.arctan2(out[:, 1], out[:, 0]), 2 * np.hypot(*out.T)
    wanted = [np.ones(len(points)), *_waves(angles, MODELLED)]
    room = (len(points) // PER_UNKNOWN - len(wanted) - 2) // 2
    aside = _waves(angles, (1, *OTHERS[:max(room, 0)]))
    design = np.column_stack([*aside, *wanted])
    if len(points) < design.shape[1]:
        raise ValueError(f"a section needs at least {design.shape[1]} points")
    turned, triangle = np.linalg.qr(design)
    values = turned.T @ doubled
    first = len(aside)
    rows = np.column_stack([values[first:], triangle[first:, first:]])
    rows *= np.where(np.diag(triangle)[first:] < 0, -1.0, 1.0)[:, None]
    found: list[list[float]] = rows.tolist()
    return found


def _waves(angles: Array, orders: tuple[int, ...]) -> list[Array]:
    return [wave(order * angles) for order in orders for wave in (np.cos, np.sin)]
