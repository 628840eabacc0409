"""A candidate together with everything its mechanics is worked out from."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from recommender.deriving.candidate import Array, Candidate, mean_interference, tightest_interference
from recommender.deriving.collector import Collector
from recommender.deriving.stack import Stack
from recommender.mechanics.openings import Factors
from recommender.metrology.weighing import Weighing
from recommender.rulebook.book import Rulebook

UM = 1e-3


@dataclass(frozen=True, eq=False)
class Pressed:
    """A part of known diameter pressed into a bore: its rings, the openings beside it, its length in the bore (mm).

    `by` says how the draws of the bore count.
    """

    candidate: Candidate
    stack: Stack
    book: Rulebook
    openings: Factors
    length: float
    by: Weighing

    @cached_property
    def mean(self) -> Array:
        """Return the interference at the bore's mean diameter (mm)."""
        return mean_interference(self.candidate)

    @cached_property
    def tightest(self) -> Array:
        """Return the interference at the bore's inscribed diameter (mm)."""
        return tightest_interference(self.candidate)

    @cached_property
    def pressure(self) -> Array:
        """Return the pressure between part and bore (MPa) at 20 C, for the mean interference."""
        return self.stack.pressures(self.mean)[self.stack.seat]

    @cached_property
    def pressure_ends(self) -> tuple[float, float]:
        """Return between which pressures (MPa, at 20 C) 95 % of the draws lie."""
        low, high = np.quantile(self.pressure, (0.025, 0.975))
        return float(low), float(high)

    def limit(self, name: str) -> float:
        """Return the value of a limit of the book."""
        return self.book.limits[name].value

    def keep(self, made: Collector, fact: str, values: Array, *inputs: str) -> None:
        """Keep draws as a fact that rests on the wall wherever that was assumed."""
        self.drawn(made, fact, values, inputs, self.stack.wall_assumed)

    def drawn(self, made: Collector, fact: str, values: Array, inputs: Iterable[str], assumed: bool) -> None:
        """Keep draws as a fact."""
        made.drawn(fact, values, self.by, inputs, assumed)
