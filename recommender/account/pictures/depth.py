"""Diameter along the depth of a seat: readings, the bore between its limits, and the part that goes in."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from matplotlib.axes import Axes

from recommender.account.pictures.bores import Bore
from recommender.account.pictures.drawing import INK, SIGNAL, Picture, figure, picture

MARKERS = {"two_point": ("o", "two-point"), "three_point": ("^", "three-point"), "diameter_only": ("s", "calliper")}
NEAR = 0.15


class Piece(NamedTuple):
    """Something with a diameter beside the bore: where on the seat (mm) it lies, its band (mm), and what it is."""

    start: float
    end: float
    band: tuple[float, float]
    name: str
    assumed: bool


def depth(bore: Bore, limits: tuple[float | None, float | None], pieces: Sequence[Piece], alt: str) -> Picture:
    """Return the picture of a seat from the face to its inner end; one side of the wall, as diameter in mm."""
    made, axes = figure(4.1, 3.4)
    ends = np.array([0.0, bore.seat])
    _bore(axes, bore, ends)
    for value, name, style in zip(limits, ("lower limit", "upper limit"), (":", "-."), strict=True):
        if value is not None and abs(value - bore.mean.value) < NEAR:
            axes.plot(ends, [value, value], color=SIGNAL, linestyle=style, linewidth=1.1, label=name)
    _pieces(axes, bore, pieces)
    _readings(axes, bore)
    axes.set_xlim(-0.02 * bore.seat, bore.seat * 1.02)
    axes.margins(y=0.12)
    axes.ticklabel_format(axis="y", useOffset=False, style="plain")
    axes.yaxis.set_major_formatter("{x:.3f}")
    axes.set_xlabel("depth from the face, mm")
    axes.set_ylabel("diameter, mm")
    axes.legend(loc="upper center", bbox_to_anchor=(0.5, -0.16), ncols=2, frameon=False, fontsize=7.5)
    return picture(made, alt)


def _bore(axes: Axes, bore: Bore, ends: np.ndarray[tuple[int], np.dtype[np.float64]]) -> None:
    low = [bore.mouth.low, bore.inner.low]
    high = [bore.mouth.high, bore.inner.high]
    axes.fill_between(ends, low, high, facecolor="#e7eaee", hatch="////", linewidth=0, label="doubt of the bore")
    middle = [bore.mouth.value, bore.inner.value]
    style = (0, (6, 2, 1, 2)) if bore.assumed else "-"
    axes.plot(ends, middle, color=INK, linewidth=1.8, linestyle=style, label="bore, mean of each section")


def _pieces(axes: Axes, bore: Bore, pieces: Sequence[Piece]) -> None:
    for count, each in enumerate(pieces):
        low, high = each.band
        name = each.name if count == 0 or each.name != pieces[count - 1].name else None
        axes.fill_between(
            [each.start, min(each.end, bore.seat)], [low] * 2, [high] * 2, facecolor="#d9d2c4", edgecolor=INK,
            linewidth=0.9, linestyle="--" if each.assumed else "-", hatch="...", label=name,
        )  # fmt: skip


def _readings(axes: Axes, bore: Bore) -> None:
    for kind, (marker, name) in MARKERS.items():
        placed = [each for each in bore.points[kind] if each.depth is not None]
        if placed:
            axes.plot(
                [each.depth or 0.0 for each in placed], [each.value for each in placed], marker, color=INK,
                markerfacecolor="white", markersize=4.2, markeredgewidth=0.9, label=f"{name} readings",
            )  # fmt: skip
