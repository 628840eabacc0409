"""Conditions as the rules state them, resolved: facts instead of ids, numbers in the fact's unit."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, TypeAlias

from recommender.facts.fact import Fact
from recommender.ground.place import Place

Op = Literal["at_least", "at_most", "above", "below", "between", "equals", "one_of", "known"]
GroupKind = Literal["every", "some", "none_of"]

NUMBER_OPS: frozenset[Op] = frozenset({"at_least", "at_most", "above", "below", "between"})
WORD_OPS: frozenset[Op] = frozenset({"equals", "one_of"})


@dataclass(frozen=True, slots=True)
class Operand:
    """What a fact is compared with: a number in the fact's unit, a word or a flag.

    `limit` is the id of the limit the number came from, None for a number written in the rule; `shown` is how
    people read it.
    """

    value: float | str | bool
    limit: str | None
    shown: str


@dataclass(frozen=True, slots=True)
class Leaf:
    """One comparison of one fact; `between` has two operands (both ends included), `one_of` one or more."""

    fact: Fact
    op: Op
    wanted: tuple[Operand, ...]
    place: Place


@dataclass(frozen=True, slots=True)
class Group:
    """`every`, `some` or `none_of` over one or more conditions."""

    kind: GroupKind
    parts: tuple["Condition", ...]
    place: Place


Condition: TypeAlias = Leaf | Group


def leaves_of(condition: Condition) -> Iterator[Leaf]:
    """Yield every leaf of a condition in the order written."""
    if isinstance(condition, Leaf):
        yield condition
        return
    for part in condition.parts:
        yield from leaves_of(part)


def limits_of(condition: Condition) -> tuple[str, ...]:
    """Return the id of every limit a condition compares with, each once, in the order written."""
    named = (operand.limit for leaf in leaves_of(condition) for operand in leaf.wanted)
    return tuple(dict.fromkeys(limit for limit in named if limit is not None))


def facts_of(condition: Condition) -> tuple[str, ...]:
    """Return the id of every fact a condition asks, each once, in the order written."""
    return tuple(dict.fromkeys(leaf.fact.id for leaf in leaves_of(condition)))
