"""Which comparisons of the rules nothing has shown yet, and what would show them."""

from collections.abc import Sequence

from recommender.account.lines import BLANK, Line, wrapped
from recommender.trials.coverage import LeafCover, Missing
from recommender.trials.grid_coverage import RowCover

SAID = {"holds": "never holds", "fails": "never fails", "close": "never close to its limit"}


def coverage_lines(covers: Sequence[LeafCover], rows: Sequence[RowCover], cases: int) -> list[Line]:
    """Return every comparison and every row of a grid with something missing, and a summary."""
    missing = [each for each in covers if each.missing]
    seen = f"{len(covers) - len(missing)} of {len(covers)} comparisons"
    by = "the examples" if not cases else f"the examples and {cases} case{'s' if cases != 1 else ''}"
    open_rows = [each for each in rows if each.missing]
    told = [*(line for each in missing for line in _cover(each)), *(line for each in open_rows for line in _row(each))]
    of_grids = f"{len(rows) - len(open_rows)} of {len(rows)} rows of grids"
    return [
        *told, *([BLANK] if told else []),
        *wrapped(f"{seen} are shown to hold, to fail and close to their limit by {by}."),
        *wrapped(f"{of_grids} are shown to answer, and close to the limits they end at." if rows else ""),
    ]  # fmt: skip


def _row(cover: RowCover) -> list[Line]:
    return [
        *wrapped(f"{cover.place}: {cover.grid}: {cover.shown}"),
        *(line for each in cover.missing for line in wrapped(each, "    ")),
    ]


def _cover(cover: LeafCover) -> list[Line]:
    wanted = ", ".join(each.shown if each.limit is None else f"{each.limit} ({each.shown})"
                       for each in cover.leaf.wanted)  # fmt: skip
    op = cover.leaf.op.replace("_", " ")
    return [
        *wrapped(f"{cover.leaf.place}: {cover.rule}: {cover.leaf.fact.id} {op} {wanted}"),
        *(line for each in cover.missing for line in wrapped(_missing(each), "    ")),
    ]


def _missing(missing: Missing) -> str:
    told = f"would be shown by {missing.value}" if missing.value else "no value of the fact would show it"
    return f"{SAID[missing.seen]}; {told}"
