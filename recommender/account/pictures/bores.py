"""What the pictures know of one bore: the facts of its form, and the readings with what their instrument sees."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from recommender.bench.readings import ReadingPoint
from recommender.deciding.answer import Found

Array = NDArray[np.float64]
LOBES = {"two_point": 2, "three_point": 3}


class Interval(NamedTuple):
    """A number with the ends of its 95 % interval."""

    value: float
    low: float
    high: float


class Bore(NamedTuple):
    """One bore at 20 C in mm; `taper` is mouth minus inner end, lobes are peak to valley on diameter.

    `turns` hold the direction (radians) in which each of the two forms is widest, None where no reading shows it.
    """

    name: str
    mean: Interval
    inscribed: Interval
    widest: Interval
    mouth: Interval
    inner: Interval
    seat: float
    oval: float
    lobed: float
    turns: Mapping[int, float | None]
    points: Mapping[str, tuple[ReadingPoint, ...]]
    assumed: bool

    def radius(self, angles: Array) -> Array:
        """Return the radius in mm of the section in the middle of the seat at angles in radians."""
        out = np.full_like(angles, self.mean.value / 2)
        for lobes, size in ((2, self.oval), (3, self.lobed)):
            turn = self.turns.get(lobes)
            if turn is not None:
                out += size / 4 * np.cos(lobes * (angles - turn))
        return out

    def at_middle(self, point: ReadingPoint) -> float:
        """Return a reading in mm with the taper between its depth and the middle of the seat taken out."""
        if point.depth is None or self.seat <= 0:
            return point.value
        share = point.depth / self.seat - 0.5
        return point.value - share * (self.inner.value - self.mouth.value)


def bore(
    name: str, facts: Mapping[str, Found], readings: Sequence[ReadingPoint], sees: Mapping[str, str], seat: float
) -> Bore | None:
    """Return what there is to draw of a bore; None where it was not read or its form is not known."""
    known = {key: _interval(facts.get(f"bore.{key}")) for key in NEEDED}
    if any(each is None for each in known.values()):
        return None
    standing = [each for each in readings if each.struck is None]
    points = {kind: tuple(each for each in standing if sees.get(each.instrument) == kind) for kind in KINDS}
    numbers = {key: each for key, each in known.items() if each is not None}
    return Bore(
        name, numbers["mean_diameter"], numbers["inscribed_diameter"], numbers["widest_diameter"],
        numbers["mouth_diameter"], numbers["inner_diameter"], seat, numbers["ovality"].value / 1000,
        numbers["lobing"].value / 1000, {2: _turn(points["two_point"], 2), 3: _turn(points["three_point"], 3)},
        points, _assumed(facts),
    )  # fmt: skip


NEEDED = (
    "mean_diameter", "inscribed_diameter", "widest_diameter", "mouth_diameter", "inner_diameter", "ovality", "lobing"
)  # fmt: skip
KINDS = ("two_point", "three_point", "diameter_only")


def _assumed(facts: Mapping[str, Found]) -> bool:
    rests = facts.get("evidence.rests_on_assumption")
    return rests is None or rests.word is not False


def _interval(found: Found | None) -> Interval | None:
    if found is None or found.value is None:
        return None
    low = found.value if found.low is None else found.low
    return Interval(found.value, low, found.value if found.high is None else found.high)


def _turn(points: Sequence[ReadingPoint], lobes: int) -> float | None:
    """Return the direction in which the lobes are widest, by least squares; None where the readings do not show it."""
    placed = [(each.turn, each.depth, each.value) for each in points if each.turn is not None]
    depths = sorted({depth for _, depth, _ in placed}, key=str)
    if len({turn for turn, _, _ in placed}) < 3:
        return None
    angles = np.radians([turn for turn, _, _ in placed])
    rows = np.array([[float(depth == each) for each in depths] for _, depth, _ in placed])
    design = np.column_stack([rows, np.cos(lobes * angles), np.sin(lobes * angles)])
    if np.linalg.matrix_rank(design) < design.shape[1]:
        return None
    found = np.linalg.lstsq(design, np.array([value for _, _, value in placed]), rcond=None)[0]
    return float(np.arctan2(found[-1], found[-2]) / lobes)
