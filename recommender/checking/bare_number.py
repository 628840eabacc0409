"""A number written in a rule or grid instead of a limit.

Avoid: `{fact: bore.ovality, above: 25 um}`
Prefer: a limit under `limits:` with meaning, safe side and source, and `{fact: bore.ovality, above: form.ovality_gate}`
Why: a number in a rule has no source and no safe side; nobody can argue about it, and a shop cannot tighten it.
The counts 0 and 1 are left alone: they say whether there is any at all.
"""

from collections.abc import Iterator

from recommender.checking.looked import Looked
from recommender.facts.fact import Fact
from recommender.ground.flaw import Flaw
from recommender.logic.conditions import NUMBER_OPS, Operand, leaves_of
from recommender.logic.grids import Band
from recommender.rulebook.grid import AnswerGrid

ID, LEVEL, NEEDS_WHOLE = "bare-number", "warning", False
COUNTS = (0.0, 1.0)
ADVICE = "Make it a limit under `limits:` and write its id."


def flaws(looked: Looked) -> Iterator[Flaw]:
    """Yield a flaw for every comparison with a number that has no name."""
    for rule in looked.book.rules:
        for leaf in leaves_of(rule.condition):
            if leaf.op in NUMBER_OPS and any(_bare(each, leaf.fact) for each in leaf.wanted):
                message = f"{leaf.fact.id} is compared with a number that has no source and no safe side"
                place = looked.below(leaf.place, leaf.op)
                yield looked.flaw(ID, place, message, ADVICE, "warning")


    for grid in looked.book.grids.values():
        yield from _in_grid(looked, grid)


def _in_grid(looked: Looked, grid: AnswerGrid) -> Iterator[Flaw]:
    for row, place in zip(grid.table.rows, grid.places, strict=True):
        for axis, part in zip(grid.table.axes, row.parts, strict=True):
            for key, end in (("from", part.start), ("to", part.end)) if isinstance(part, Band) else ():
                if end is not None and _bare(end, axis.fact):
                    message = f"a range of {axis.fact.id} ends at a number that has no source and no safe side"
                    where = looked.below(place, "at", axis.fact.id, key)
                    yield looked.flaw(ID, where, message, ADVICE, "warning")


def _bare(operand: Operand, fact: Fact) -> bool:
    return operand.limit is None and not (fact.unit == "1" and operand.value in COUNTS)
