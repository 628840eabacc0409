"""Plots of the virtual bench, the same bytes from the same figures."""

import io
from collections.abc import Mapping
from pathlib import Path

from recommender.account.pictures.drawing import INK, SIGNAL, SOFT, figure, plain_settings
from virtual_bench.figures import Share
from virtual_bench.habits import HABITS
from virtual_bench.running import PRACTICES

LEAST = 1e-5
Kept = Mapping[str, Mapping[str, list[int]]]


def draw_all(kept: Kept, folder: Path) -> None:
    """Write both plots into a folder."""
    folder.mkdir(exist_ok=True)
    (folder / "harm.svg").write_text(harm_plot(kept), "utf-8")
    (folder / "answers.svg").write_text(answers_plot(kept), "utf-8")


def harm_plot(kept: Kept) -> str:
    """Return how often work was let through that should not be, with 95 % intervals, beside what is promised."""
    titles = {name: habit.title for name, habit in HABITS.items()} | PRACTICES
    names = [name for name in titles if kept[name]["pressed"][1]][::-1]
    with plain_settings():
        made, axes = figure(7.2, 0.5 + 0.42 * len(names))
        for row, name in enumerate(names):
            for key, colour, off in (("barred_all", INK, 0.13), ("barred_near", SIGNAL, -0.13)):
                share = Share(*kept[name][key])
                low, high = (max(LEAST, each) for each in share.interval())
                axes.plot([low, high], [row + off] * 2, color=colour, linewidth=1.2)
                axes.plot([max(LEAST, share.value)], [row + off], "o", color=colour, markersize=4)
        for promised, colour in ((1e-3, INK), (1e-2, SIGNAL)):
            axes.axvline(promised, color=colour, linewidth=0.8, linestyle=":")
        axes.set_xscale("log")
        axes.set_xlim(LEAST, 1.0)
        axes.set_yticks(range(len(names)), [titles[name] for name in names])
        axes.set_xlabel("pressed though it should not be: share of all frames (dark), of those near a limit (red);"
                        " dotted: promised")
        return _svg(made)


def answers_plot(kept: Kept) -> str:
    """Return how each habit's frames were answered."""
    names = [name for name in HABITS if kept[name]["pressed"][1]][::-1]
    with plain_settings():
        made, axes = figure(7.2, 0.5 + 0.34 * len(names))
        for row, name in enumerate(names):
            left = 0.0
            for key, colour, word in (("pressed", "#6f8f72", "let through"), ("asked", "#d8c48a", "asked for more"),
                                      ("refused", SOFT, "refused")):
                width = Share(*kept[name][key]).value
                axes.barh(row, width, left=left, color=colour, height=0.62, label=word if row == 0 else None)
                left += width
        axes.set_yticks(range(len(names)), [HABITS[name].title for name in names])
        axes.set_xlim(0, 1)
        axes.set_xlabel("share of frames")
        axes.legend(loc="upper center", bbox_to_anchor=(0.4, 1.22), ncols=3, frameon=False)
        return _svg(made)


def _svg(made: object) -> str:
    out = io.StringIO()
    made.savefig(out, format="svg", metadata={"Date": None, "Creator": None, "Format": None, "Type": None})
    return "\n".join(line.rstrip() for line in out.getvalue().splitlines()) + "\n"
