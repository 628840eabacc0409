"""A row of a grid that no example of it lies in.

Avoid: a grid of six rows with two examples
Prefer: for each row one example whose facts lie in that row alone.
Why: an answer nobody tried may stand in the wrong row.
"""

from collections.abc import Iterator

from recommender.checking.looked import Looked
from recommender.ground.flaw import Flaw

ID, LEVEL, NEEDS_WHOLE = "untested-row", "warning", True


def flaws(looked: Looked) -> Iterator[Flaw]:
    """Yield a flaw for every row without an example that lies in no other."""
    for grid in looked.book.grids.values():
        seen = {grid.table.look_up(example.facts).rows for example in grid.examples}
        for index, place in enumerate(grid.places):
            if (index,) not in seen:
                message = f"no example of {grid.id} lies in row {index + 1}"
                advice = f"Add one for `{grid.row_shown(index)}`."
                yield looked.flaw(ID, place, message, advice, "warning")
