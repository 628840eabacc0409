"""Gathers facts of one scope, rounded as the catalogue says, each with what it was made from."""

from collections.abc import Iterable, Mapping
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from recommender.facts.catalogue import CATALOGUE
from recommender.facts.fact import places_shown
from recommender.facts.value import FactValue, Word, not_applicable, number, unknown, word
from recommender.metrology.summary import Summary
from recommender.metrology.weighing import Weighing

Draws = NDArray[np.float64]


class Collector:
    """Facts of a frame, side or option while they are being derived; `facts` is what was gathered so far."""

    def __init__(self, facts: Mapping[str, FactValue] = MappingProxyType({})) -> None:
        """Start with the facts that are known already."""
        self.facts = dict(facts)

    def word(self, fact: str, value: Word | None, *inputs: str, why: str = "not written in the case") -> None:
        """Keep a word or flag; None is unknown, with the reason."""
        self._keep(unknown(fact, why, inputs) if value is None else word(fact, value, inputs))

    def exact(self, fact: str, value: float, *inputs: str, note: str = "") -> None:
        """Keep a number without spread: a count, or a size that is chosen and not measured."""
        self._keep(number(fact, value, decimals=_decimals(fact), inputs=inputs, note=note))

    def between(
        self, fact: str, value: float, low: float, high: float, *inputs: str, assumed: bool = False, beyond: float = 0.0
    ) -> None:
        """Keep a number with its 95 % interval, and how far what decides reaches beyond it."""
        decimals = _decimals(fact)
        more = {"assumed": assumed, "inputs": inputs, "beyond": _beyond(fact, beyond)}
        self._keep(number(fact, value, low, high, decimals=decimals, **more))

    def drawn(
        self, fact: str, values: Draws, by: Weighing, inputs: Iterable[str], assumed: bool = False
    ) -> None:
        """Keep a number given as weighted draws: median, 95 % interval and the sampling error of its ends."""
        self.summed(fact, by.once(values), inputs, assumed)

    def summed(self, fact: str, made: Summary, inputs: Iterable[str], assumed: bool = False) -> None:
        """Keep a number whose draws were summed up."""
        decimals = _decimals(fact)
        self._keep(
            number(
                fact,
                made.value,
                made.low,
                made.high,
                decimals=decimals,
                assumed=assumed,
                inputs=tuple(inputs),
                sampling=round(made.sampling_error, decimals),
                beyond=_beyond(fact, made.beyond),
            )
        )

    def unknown(self, fact: str, why: str, *inputs: str) -> None:
        """Keep that a fact is unknown, and why."""
        self._keep(unknown(fact, why, inputs))

    def not_applicable(self, fact: str, why: str, *inputs: str) -> None:
        """Keep that this frame cannot have a fact, and why."""
        self._keep(not_applicable(fact, why, inputs))

    def _keep(self, value: FactValue) -> None:
        if value.fact not in CATALOGUE:
            raise KeyError(f"{value.fact} is not in the catalogue of facts")
        self.facts[value.fact] = value


def _beyond(fact: str, by: float) -> float:
    """Return how far the interval that decides reaches beyond 95 %: not at all where nothing at a bench settles it."""
    return round(by, _decimals(fact)) if CATALOGUE[fact].bench_can_settle else 0.0


def _decimals(fact: str) -> int:
    return places_shown(CATALOGUE[fact].unit)
