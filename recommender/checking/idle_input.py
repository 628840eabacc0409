"""An input of a grid on which its answer never depends.

Avoid: an input that every row leaves out, or whose words all lead to the same answers
Prefer: take it out; with one input left, write rules instead.
Why: whoever reads the grid believes that the input matters, and the bench is asked for what nobody needs.
"""

from collections.abc import Iterator

from recommender.checking.looked import Looked
from recommender.ground.flaw import Flaw
from recommender.logic.grids import idle_axes

ID, LEVEL, NEEDS_WHOLE = "idle-input", "warning", False


def flaws(looked: Looked) -> Iterator[Flaw]:
    """Yield a flaw for every input that never changes the answer."""
    for grid in looked.book.grids.values():
        for index in idle_axes(grid.table):
            name = grid.inputs[index]
            place = looked.documents[grid.place.file].place((*looked.path_of(grid.place), "inputs", index))
            message = f"the answer of {grid.id} never depends on {name}"
            yield looked.flaw(ID, place, message, "Take the input out, or write the rows that were meant.", "warning")
