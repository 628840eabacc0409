"""A table of a standard with a gap or an overlap between its ranges of size.

Avoid: ranges over 30 to 40 mm and over 45 to 60 mm
Prefer: each range begins where the one before it ends.
Why: a size in a gap has no value, and one in two ranges has two.
"""

from collections.abc import Iterator
from itertools import pairwise

from recommender.checking.looked import Looked
from recommender.ground.flaw import Flaw
from recommender.ground.quantity import show

ID, LEVEL, NEEDS_WHOLE = "table-ranges", "error", False


def flaws(looked: Looked) -> Iterator[Flaw]:
    """Yield a flaw for every range that is empty, or does not begin where the one before it ends."""
    for table in looked.book.tables.values():
        for index, row in enumerate(table.rows):
            if row.over >= row.to:
                message = f"this range of {table.id} holds no size"
                place = looked.place_of("tables", table.id, "ranges", index)
                yield looked.flaw(ID, place, message, "Exchange its ends.")
        for index, (one, two) in enumerate(pairwise(table.rows), 1):
            if one.to != two.over:
                what = "a gap" if one.to < two.over else "an overlap"
                ends = sorted((one.to, two.over))
                message = f"{table.id} has {what} from {show(ends[0], 'mm')} to {show(ends[1], 'mm')}"
                place = looked.place_of("tables", table.id, "ranges", index, "over")
                yield looked.flaw(ID, place, message, f"Let this range begin at {show(one.to, 'mm')}.")
