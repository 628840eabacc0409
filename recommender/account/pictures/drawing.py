"""A drawing: one matplotlib figure that gives the same bytes everywhere, and the marks all pictures share."""

import io
import re
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any, NamedTuple
from urllib.parse import quote

import matplotlib as mpl
from matplotlib.axes import Axes
from matplotlib.figure import Figure

INK, SOFT, FAINT = "#1b1f24", "#5a6472", "#c9cfd6"
SIGNAL = "#8a2f12"
SETTINGS: Any = {
    "svg.fonttype": "none", "svg.hashsalt": "borewright", "font.family": "sans-serif", "font.size": 8.5,
    "axes.edgecolor": SOFT, "axes.labelcolor": INK, "axes.linewidth": 0.8, "xtick.color": SOFT, "ytick.color": SOFT,
    "text.color": INK, "hatch.linewidth": 0.5, "hatch.color": SOFT, "axes.spines.top": False,
    "axes.spines.right": False, "xtick.labelsize": 8, "ytick.labelsize": 8,
}  # fmt: skip
FAMILY = re.compile(r"font: ([^;'\"]*?)'DejaVu Sans'[^;\"]*")


class Picture(NamedTuple):
    """A picture ready for the page: its address within the page, its size, and what it shows in words."""

    source: str
    width: int
    height: int
    alt: str


@contextmanager
def plain_settings() -> Iterator[None]:
    """Use the same settings everywhere, whatever the user's own files say."""
    with mpl.rc_context():
        mpl.rcdefaults()
        mpl.rcParams.update(SETTINGS)
        yield


def figure(width: float, height: float) -> tuple[Figure, Axes]:
    """Return an empty figure of a size in inches, and its axes."""
    made = Figure(figsize=(width, height), layout="constrained")
    made.patch.set_alpha(0.0)
    axes = made.add_subplot()
    axes.patch.set_alpha(0.0)
    return made, axes


def picture(made: Figure, alt: str) -> Picture:
    """Return a figure as an SVG within the page; neither date nor program is written into it."""
    out = io.StringIO()
    made.savefig(out, format="svg", metadata={"Date": None, "Creator": None, "Format": None, "Type": None})
    svg = FAMILY.sub(r"font: \1Helvetica, Arial, sans-serif", out.getvalue())
    width, height = (round(each * 96) for each in made.get_size_inches())
    source = "data:image/svg+xml," + quote(svg[svg.index("<svg") :], safe=" ~!*'();:@&=+$,/?")
    return Picture(source, width, height, alt)
