"""A candidate together with everything its mechanics is worked out from."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from recommender.deriving.candidate import Array, Candidate, mean_interference, tightest_interference
from recommender.deriving.collector import Collector
from recommender.deriving.draws_of import even
from recommender.deriving.stack import Stack
from recommender.mechanics.amount import ends
from recommender.mechanics.grip import long_term_pressure
from recommender.mechanics.openings import Factors
from recommender.metrology.summary import Summary
from recommender.metrology.weighing import Weighing
from recommender.rulebook.book import Rulebook

UM = 1e-3
CREEP = ("creep.unfilled", "creep.filled")


def not_negative(values: Array) -> Array:
    """Return draws with those below zero as zero; the very same where there are none, so that they are summed once."""
    return values if values.min() >= 0 else np.maximum(values, 0.0)


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
    def held(self) -> Array:
        """Return that pressure (MPa), none where the part is loose."""
        return not_negative(self.pressure)

    @cached_property
    def long_term(self) -> Array:
        """Return what is left of the pressure (MPa) beside the openings, and in a polymer part after it has crept."""
        hold = self.openings.hold
        held = self.pressure if isinstance(hold, float) and hold == 1 else self.pressure * hold
        if self.candidate.material != "polymer":
            return held
        creep = even("part_modulus", *sorted(self.limit(each) for each in CREEP))
        return np.asarray(long_term_pressure(held, creep))

    @cached_property
    def pressure_ends(self) -> tuple[float, float]:
        """Return between which pressures (MPa, at 20 C) 95 % of the draws lie."""
        return ends(self.pressure)

    def limit(self, name: str) -> float:
        """Return the value of a limit of the book."""
        return self.book.limits[name].value

    def summed(self, made: Collector, fact: str, summary: Summary, *inputs: str) -> None:
        """Keep draws that were summed up as a fact that rests on the wall wherever that was assumed."""
        made.summed(fact, summary, inputs, self.stack.wall_assumed)

    def keep(self, made: Collector, fact: str, values: Array, *inputs: str) -> None:
        """Keep draws as a fact that rests on the wall wherever that was assumed."""
        self.drawn(made, fact, values, inputs, self.stack.wall_assumed)

    def drawn(self, made: Collector, fact: str, values: Array, inputs: Iterable[str], assumed: bool) -> None:
        """Keep draws as a fact."""
        made.drawn(fact, values, self.by, inputs, assumed)
