"""Interference of every remedy against the window that is allowed for its fit, both sides on one scale."""

from collections.abc import Sequence
from typing import Any, NamedTuple

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Patch

from recommender.account.pictures.bores import Interval
from recommender.account.pictures.drawing import FAINT, INK, SIGNAL, SOFT, Picture, figure, picture

ROW = 0.3
WIDEST = 250.0


class Fit(NamedTuple):
    """One remedy on one side, um: interference at mean and tightest place, bars and aim of its fit, what became of it.

    `part` tells of a part that was not measured: `not measured`, `to be made`; empty for one that was.
    """

    side: str
    remedy: str
    mean: Interval
    tightest: Interval
    bars: tuple[float, float]
    aim: tuple[float, float]
    outcome: str
    chosen: bool
    part: str


def window(fits: Sequence[Fit], alt: str) -> Picture:
    """Return the picture of all fits, one to a row, the sides apart by a line."""
    made, axes = figure(8.4, 1.1 + ROW * (len(fits) + 1))
    for height, fit in enumerate(fits):
        _window(axes, fit, height)
        _fit(axes, fit, height)
        if height and fits[height - 1].side != fit.side:
            axes.axhline(height - 0.5, color=SOFT, linewidth=0.8)
    axes.axvline(0.0, color=SIGNAL, linewidth=0.9, linestyle=":")
    axes.set_xlim(*_reach(fits))
    axes.set_ylim(len(fits) - 0.4, -0.7)
    axes.set_yticks(range(len(fits)), [f"{each.side}: {each.remedy}" for each in fits], fontsize=7.5)
    for text, fit in zip(axes.get_yticklabels(), fits, strict=True):
        text.set_fontweight("bold" if fit.chosen else "normal")
        text.set_color(INK)
    axes.tick_params(axis="y", length=0)
    axes.set_xlabel("interference on diameter at 20 °C, µm (left of zero: loose)")
    _key(made, axes)
    return picture(made, alt)


def _reach(fits: Sequence[Fit]) -> tuple[float, float]:
    low = min(min(each.mean.low, each.bars[0]) for each in fits)
    high = max(max(each.tightest.high, each.bars[1]) for each in fits)
    low, high = max(low, -WIDEST), min(high, WIDEST)
    return low - 0.05 * (high - low), high + 0.05 * (high - low)


def _window(axes: Axes, fit: Fit, height: int) -> None:
    low, high = fit.bars
    axes.barh(height, high - low, left=low, height=0.62, facecolor="none", edgecolor=SOFT, linewidth=0.9)
    low, high = fit.aim
    aim: Any = {"facecolor": "#f0f2f4", "edgecolor": FAINT, "hatch": "////", "linewidth": 0}
    axes.barh(height, high - low, left=low, height=0.62, **aim)


def _fit(axes: Axes, fit: Fit, height: int) -> None:
    style = "--" if fit.part else "-"
    face = "white" if fit.part else INK
    for each, marker, offset in ((fit.mean, "D", -0.12), (fit.tightest, ">", 0.12)):
        axes.plot([each.low, each.high], [height + offset] * 2, color=INK, linewidth=1.6, linestyle=style)
        axes.plot(each.value, height + offset, marker, color=INK, markerfacecolor=face, markersize=4.5)
    words = f"{fit.outcome}{', part ' if fit.part else ''}{fit.part}"
    weight = "bold" if fit.chosen else "normal"
    where = axes.get_yaxis_transform()
    axes.text(1.01, height, words, va="center", ha="left", fontsize=7.5, fontweight=weight, transform=where)


def _key(made: Figure, axes: Axes) -> None:
    mean = axes.plot([], [], "-D", color=INK, markersize=4.5, linewidth=1.6)[0]
    tightest = axes.plot([], [], "->", color=INK, markersize=4.5, linewidth=1.6)[0]
    assumed = axes.plot([], [], "--D", color=INK, markersize=4.5, linewidth=1.6, markerfacecolor="white")[0]
    bars = Patch(facecolor="none", edgecolor=SOFT, linewidth=0.9)
    aim = Patch(facecolor="#f0f2f4", edgecolor=SOFT, hatch="////", linewidth=0)
    made.legend(
        [mean, tightest, assumed, bars, aim],
        ["at the mean bore", "at the tightest place", "part not in hand", "allowed", "aimed at"],
        loc="outside upper center", ncols=5, frameon=False, fontsize=7.5, handletextpad=0.5, columnspacing=1.2,
    )  # fmt: skip
