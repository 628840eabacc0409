"""A candidate together with everything its mechanics is worked out from."""

from collections.abc import Iterable
from typing import NamedTuple

from recommender.deriving.candidate import Array, Candidate
from recommender.deriving.collector import Collector
from recommender.deriving.stack import Stack
from recommender.mechanics.openings import Factors
from recommender.rulebook.book import Rulebook

UM = 1e-3


class Pressed(NamedTuple):
    """A part of known diameter pressed into a bore: its rings, the openings beside it, its length in the bore (mm).

    `weights` and `effective` are those of the draws of the bore.
    """

    candidate: Candidate
    stack: Stack
    book: Rulebook
    openings: Factors
    length: float
    weights: Array
    effective: float

    def limit(self, name: str) -> float:
        """Return the value of a limit of the book."""
        return self.book.limits[name].value

    def keep(self, made: Collector, fact: str, values: Array, *inputs: str) -> None:
        """Keep draws as a fact that rests on the wall wherever that was assumed."""
        self.drawn(made, fact, values, inputs, self.stack.wall_assumed)

    def drawn(self, made: Collector, fact: str, values: Array, inputs: Iterable[str], assumed: bool) -> None:
        """Keep draws as a fact."""
        made.drawn(fact, values, self.weights, self.effective, inputs, assumed)
