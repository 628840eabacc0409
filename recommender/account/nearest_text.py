"""The nearest change of every remedy that lost, in words."""

from collections.abc import Iterable, Mapping, Sequence

from recommender.account.words import capital, fact_name, lower, readable, stop
from recommender.asking.nearest import Change, Lost
from recommender.ground.quantity import show

Nearest = Mapping[tuple[str, str], Sequence[str]]
NONE_FOUND = "no single change of bore, part or knowledge was found that clears it"
NOTE = (
    "Each nearest change was found by judging the case again with it; one um less does not clear the remedy. It says "
    "how far away a remedy is, not that the change can be made."
)


def nearest_texts(found: Iterable[Lost]) -> Nearest:
    """Return what would clear each remedy that lost, by side and remedy: one text for each change."""
    return {(each.side, each.remedy): told(each) for each in found}


def told(lost: Lost) -> list[str]:
    """Return what would clear a remedy, one text for each change; one text where nothing would."""
    if lost.changes:
        return [_change(each) for each in lost.changes]
    barred = "; ".join(map(lower, lost.barred_by[:MOST_BARS]))
    return [f"{NONE_FOUND}{f' ({barred})' if barred else ''}"]


MOST_BARS = 3


def _change(change: Change) -> str:
    return WORDED[change.kind](change)


def _bore(change: Change) -> str:
    return f"bore {_um(change)} {'larger' if change.um > 0 else 'smaller'}"


def _rounder(change: Change) -> str:
    return f"bore {_um(change)} less out of round"


def _taper(change: Change) -> str:
    return f"{_um(change)} {'more' if change.um > 0 else 'less'} taper over the seat"


def _part(change: Change) -> str:
    size = show(change.od or 0.0, "mm")
    if change.in_hand:
        return f"this part {_um(change)} {'larger' if change.um > 0 else 'smaller'}, {size} with its bearing fitted"
    return f"{readable(change.part)} that measures {size} with its bearing fitted"


def _reading(change: Change) -> str:
    rows = (
        f"`{each.instrument}` at {each.turn:g} degrees, {each.depth:g} mm deep, reading {show(value, 'mm')}"
        for each, value in zip(change.readings, change.shows, strict=True)
    )
    more = "a further reading" if len(change.readings) == 1 else f"{len(change.readings)} further readings"
    return f"{more} as now expected: {'; '.join(rows)}"


def _answer(change: Change) -> str:
    answers = (f"{fact_name(fact)}: {word}" for fact, word in change.answers)
    return f"to know more: {'; '.join(answers)}"


def _um(change: Change) -> str:
    return f"{abs(change.um):.0f} um"


WORDED = {
    "bore": _bore, "rounder": _rounder, "taper": _taper, "part": _part, "reading": _reading, "answer": _answer,
}  # fmt: skip


def sentence(texts: Sequence[str]) -> str:
    """Return the changes of one remedy as a sentence: `Bore 30 um larger; or ...`."""
    return stop(capital("; or ".join(texts)))
