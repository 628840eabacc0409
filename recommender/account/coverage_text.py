"""Which comparisons of the rules nothing has shown yet, and what would show them."""

from collections.abc import Sequence

from recommender.account.lines import BLANK, Line, wrapped
from recommender.trials.coverage import LeafCover, Missing

SAID = {"holds": "never holds", "fails": "never fails", "close": "never close to its limit"}


def coverage_lines(covers: Sequence[LeafCover], cases: int) -> list[Line]:
    """Return every comparison with something missing, by rule, and a summary."""
    missing = [each for each in covers if each.missing]
    seen = f"{len(covers) - len(missing)} of {len(covers)} comparisons"
    by = "the examples" if not cases else f"the examples and {cases} case{'s' if cases != 1 else ''}"
    return [*(line for each in missing for line in _cover(each)), *([BLANK] if missing else []),
            *wrapped(f"{seen} are shown to hold, to fail and close to their limit by {by}.")]  # fmt: skip


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
