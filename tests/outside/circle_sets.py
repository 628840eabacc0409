"""Makes the circle sets of `circle_sets.json`: points whose least squares circle is known by construction.

    python tests/outside/circle_sets.py            writes them anew; the same every time

Construction, in the manner published for reference data of geometric fits (choose the solution, then residuals that
leave it one): points stand at chosen angles about a chosen centre at a chosen radius plus a residual; the residuals are
made orthogonal to the change of distance by centre and radius, so that the chosen circle is where the sum of their
squares is least. Worked out with 50 digits; coordinates are kept as the nearest double, and the least squares circle of
these doubles is worked out once more by Newton's method on the full second derivatives with 50 digits and kept.
"""

import json
from pathlib import Path
from random import Random
from typing import Any

from mpmath import cos, findroot, lu_solve, matrix, mp, mpf, pi, sin, sqrt

KEPT = Path(__file__).with_name("circle_sets.json")
COUNT, SEED = 30, 1985
KINDS = ("all round", "even", "arc", "few", "far away")
SIZES = (0.5, 21.0, 23.0, 400.0)


def made(number: int) -> dict[str, Any]:
    """Return one set: kind, points, the circle it was made for and the circle of its doubles."""
    random = Random(SEED + number)
    kind = KINDS[number % len(KINDS)]
    radius = mpf(SIZES[number % len(SIZES)])
    far = 600 if kind == "far away" else 20
    centre = [mpf(random.uniform(-far, far)) for _ in range(2)]
    angles = _angles(kind, random)
    rough = radius * mpf(random.choice((1e-6, 1e-4, 2e-3)))
    residuals = _orthogonal(angles, [rough * mpf(random.gauss(0, 1)) for _ in angles])
    points = [
        (float(centre[0] + (radius + off) * cos(angle)), float(centre[1] + (radius + off) * sin(angle)))
        for angle, off in zip(angles, residuals, strict=True)
    ]
    solved = _least_squares(points, (*centre, radius))
    return {
        "kind": kind, "points": points, "made_for": [float(centre[0]), float(centre[1]), float(2 * radius)],
        "least_squares": [mp.nstr(each, 20) for each in (solved[0], solved[1], 2 * solved[2])],
    }


def _angles(kind: str, random: Random) -> list[Any]:
    if kind == "even":
        return [2 * pi * at / 36 for at in range(36)]
    if kind == "arc":
        return sorted(mpf(random.uniform(0, 2.2)) for _ in range(24))
    count = {"few": 7, "far away": 20}.get(kind, 30)
    return [2 * pi * (at + mpf(random.uniform(-0.3, 0.3))) / count for at in range(count)]


def _orthogonal(angles: list[Any], residuals: list[Any]) -> list[Any]:
    """Return residuals without the part that another circle would explain."""
    columns = [[cos(each) for each in angles], [sin(each) for each in angles], [mpf(1) for _ in angles]]
    normal = matrix([[sum(a * b for a, b in zip(one, two, strict=True)) for two in columns] for one in columns])
    right = matrix([sum(a * b for a, b in zip(one, residuals, strict=True)) for one in columns])
    taken = lu_solve(normal, right)
    return [off - sum(taken[at] * column[place] for at, column in enumerate(columns))
            for place, off in enumerate(residuals)]


def _least_squares(points: list[tuple[float, float]], start: tuple[Any, ...]) -> Any:
    """Return centre and radius of doubles: where the gradient of the sum of squares vanishes."""
    def gradient(x: Any, y: Any, radius: Any) -> list[Any]:
        total = [mpf(0), mpf(0), mpf(0)]
        for px, py in points:
            away = sqrt((mpf(px) - x) ** 2 + (mpf(py) - y) ** 2)
            off = away - radius
            total[0] -= off * (mpf(px) - x) / away
            total[1] -= off * (mpf(py) - y) / away
            total[2] -= off
        return total

    return findroot(gradient, start, tol=mpf(10) ** -60, maxsteps=50)


def main() -> None:
    """Write the sets."""
    mp.dps = 50
    rows = ",\n ".join(json.dumps(made(number)) for number in range(COUNT))
    KEPT.write_text(f"[{rows}]\n", "utf-8")


if __name__ == "__main__":
    main()
