"""The virtual bench in the project's documentation: a table in DEVELOPERS.md and plots beside this file."""

import json
from collections.abc import Iterator, Mapping
from pathlib import Path

from virtual_bench.figures import Share, figures
from virtual_bench.habits import HABITS
from virtual_bench.plots import draw_all
from virtual_bench.running import PRACTICES, lines_in

HERE = Path(__file__).resolve().parent
KEPT, GUIDE = HERE / "kept.json", HERE.parents[1] / "DEVELOPERS.md"
START, END = "<!-- virtual bench: from here -->", "<!-- virtual bench: to here -->"
ROWS: tuple[tuple[str, str], ...] = (
    ("frames", "frames"),
    ("pressed", "let through"),
    ("asked", "asked for more, or sheet sent back"),
    ("barred_all", "**pressed though it should not be**"),
    ("barred_near", "- of frames near a limit"),
    ("barred_hidden", "- of frames with a form the model does not have"),
    ("wrong_size_all", "**wrong size to turn, cut or buy**"),
    ("wrong_size_near", "- of frames near a limit"),
    ("wrong_size_hidden", "- of frames with a form the model does not have"),
    ("refused_good", "refused though it was good"),
    ("asked_clear", "asked for more though the answer was clear"),
    ("asked_clear_shown", "- clear by the 95 % shown, not by the wider interval that decides"),
    ("missed", "mistake or slip not noticed"),
    ("missed_harm", "- and wrong work let through by it"),
    ("told", "pressed with a bar open that the account printed as a caution"),
)
Kept = Mapping[str, Mapping[str, list[int]]]


def report(store: Path) -> str:
    """Write figures, table and plots anew from the frames judged so far; return the table."""
    if store.exists():
        made = figures(lines_in(store).values())
        KEPT.write_text(json.dumps(made, indent=1) + "\n", "utf-8")
    kept = json.loads(KEPT.read_text("utf-8"))
    GUIDE.write_text(with_table(GUIDE.read_text("utf-8"), kept), "utf-8")
    draw_all(kept, HERE / "plots")
    return table(kept)


def with_table(guide: str, kept: Kept) -> str:
    """Return the guide with the table of these figures between its marks."""
    before, rest = guide.split(START)
    return f"{before}{START}\n{table(kept)}{END}{rest.split(END)[1]}"


def table(kept: Kept) -> str:
    """Return the figures as a table: shares in per cent with their 95 % interval."""
    columns = {name: habit.title for name, habit in HABITS.items() if kept[name]["pressed"][1]}
    columns |= {name: title for name, title in PRACTICES.items() if kept[name]["pressed"][1]}
    return "\n".join([*_lines(kept, columns), ""])


def _lines(kept: Kept, columns: Mapping[str, str]) -> Iterator[str]:
    yield (f"Of {kept['truth']['near'][1]:,} frames {_percent(kept['truth']['near'])} lie near a limit, "
           f"{_percent(kept['truth']['hidden'])} carry a form the model does not have, and "
           f"{_percent(kept['truth']['proceed'])} deserve to be worked on.")
    yield ""
    yield "| | " + " | ".join(columns.values()) + " |"
    yield "|---" * (len(columns) + 1) + "|"
    for key, title in ROWS:
        yield f"| {title} | " + " | ".join(_cell(kept[name], key) for name in columns) + " |"


def _percent(found: list[int]) -> str:
    return f"{100 * Share(*found).value:.0f} %"


def _cell(found: Mapping[str, list[int]], key: str) -> str:
    if key == "frames":
        return f"{found['pressed'][1]:,}"
    if key not in found or not found[key][1]:
        return ""
    share = Share(*found[key])
    low, high = share.interval()
    return f"{100 * share.value:.2f} ({100 * low:.2f} to {100 * high:.2f})"
