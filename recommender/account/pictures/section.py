"""The section of a bore with its deviation from round enlarged, and the circles it is held against."""

from math import pi

import numpy as np
from matplotlib.axes import Axes

from recommender.account.pictures.bores import Array, Bore
from recommender.account.pictures.drawing import FAINT, INK, SIGNAL, SOFT, Picture, figure, picture

SCALES = tuple(base * ten for ten in (100, 10, 1) for base in (20, 15, 10, 8, 6, 5, 4, 3, 2.5, 2, 1.5, 1.2))
ROOM = 0.42
WAIST = {2: 0.18, 3: 0.09}
TINY = 1e-9
FULL = np.linspace(0.0, 2 * pi, 361)
CONTACTS = {"two_point": (2, "o", "two-point readings"), "three_point": (3, "^", "three-point readings")}


def section(bore: Bore, limits: tuple[float | None, float | None], alt: str) -> tuple[Picture, int]:
    """Return the picture of a section and how many times its deviation is enlarged.

    `limits` are the standard's lower and upper limit of the bore in mm; one that lies too far off is left out.
    """
    made, axes = figure(4.1, 4.5)
    near = [each for each in limits if each is not None and abs(each - bore.mean.value) < 0.12]
    farthest = _deviations(bore, near)
    scale = _scale(bore, farthest)
    axes.set_aspect("equal")
    axes.set_axis_off()
    _reference(axes, bore.mean.value / 2 + scale * max(farthest) + 1.0)
    _band(axes, bore, scale)
    _circle(axes, bore, bore.inscribed.value, scale, "--", "largest circle that enters")
    for value, name, style in zip(limits, ("lower limit", "upper limit"), (":", "-."), strict=True):
        if value in near and value is not None:
            _circle(axes, bore, value, scale, style, name)
    _readings(axes, bore, scale)
    axes.legend(loc="upper center", bbox_to_anchor=(0.5, 0.0), ncols=2, frameon=False, fontsize=7.5)
    return picture(made, alt), scale


def _deviations(bore: Bore, near: list[float]) -> list[float]:
    """Return how far everything drawn lies from the mean radius, in mm."""
    radius = bore.mean.value / 2
    circles = [bore.inscribed.low / 2 - radius, *(each / 2 - radius for each in near)]
    points = [(bore.at_middle(each) / 2 - radius) for group in bore.points.values() for each in group]
    return [*circles, *points, *map(float, bore.radius(FULL) - radius)]


def _scale(bore: Bore, deviations: list[float]) -> int:
    """Return the largest round enlargement at which nothing comes too close to the middle or too far out."""
    radius = bore.mean.value / 2
    # An oval drawn with more than this looks like a waist, which it is not.
    most = min(ROOM * radius / max(map(abs, deviations)), WAIST[2] * radius / (bore.oval / 4 + TINY),
               WAIST[3] * radius / (bore.lobed / 4 + TINY))  # fmt: skip
    return next((int(each) for each in SCALES if each <= most), 1)


def _enlarged(bore: Bore, radii: Array | float, scale: int) -> Array:
    middle = bore.mean.value / 2
    return middle + scale * (np.asarray(radii, float) - middle)


def _reference(axes: Axes, reach: float) -> None:
    for turn in range(0, 180, 45):
        angle = pi / 2 - np.radians(turn)
        x, y = reach * np.cos(angle), reach * np.sin(angle)
        axes.plot([-x, x], [-y, y], color=FAINT, linewidth=0.6, zorder=0)
    axes.text(0, reach + 0.5, "down tube", ha="center", va="bottom", color=SOFT, fontsize=7.5)
    axes.set_xlim(-reach - 1, reach + 1)
    axes.set_ylim(-reach - 1, reach + 3)


def _band(axes: Axes, bore: Bore, scale: int) -> None:
    form = bore.radius(FULL)
    half = (bore.mean.high - bore.mean.low) / 4
    low, high = (_enlarged(bore, form + each, scale) for each in (-half, half))
    x, y = _points(np.concatenate([low, high[::-1]]), np.concatenate([FULL, FULL[::-1]]))
    axes.fill(x, y, facecolor="#e7eaee", edgecolor="none", hatch="////", linewidth=0, label="doubt of its size")
    name = "section, form assumed in part" if bore.assumed else "section of the bore"
    style = (0, (6, 2, 1, 2)) if bore.assumed else "-"
    axes.plot(*_points(_enlarged(bore, form, scale), FULL), color=INK, linewidth=1.8, linestyle=style, label=name)


def _circle(axes: Axes, bore: Bore, diameter: float, scale: int, style: str, name: str) -> None:
    radii = np.full_like(FULL, diameter / 2)
    colour = SIGNAL if "limit" in name else SOFT
    axes.plot(*_points(_enlarged(bore, radii, scale), FULL), color=colour, linewidth=1.2, linestyle=style, label=name)


def _readings(axes: Axes, bore: Bore, scale: int) -> None:
    for kind, (contacts, marker, name) in CONTACTS.items():
        placed = [each for each in bore.points[kind] if each.turn is not None]
        if not placed:
            continue
        turns = np.radians([[(each.turn or 0.0) + at * 360 / contacts for at in range(contacts)] for each in placed])
        radii = np.array([[bore.at_middle(each) / 2] * contacts for each in placed])
        x, y = _points(_enlarged(bore, radii.ravel(), scale), turns.ravel())
        axes.plot(x, y, marker, color=INK, markerfacecolor="white", markersize=4.2, markeredgewidth=0.9, label=name)


def _points(radii: Array, angles: Array) -> tuple[Array, Array]:
    """Return where points lie: turns run clockwise from the down tube, as seen from the face."""
    return radii * np.sin(angles), radii * np.cos(angles)
