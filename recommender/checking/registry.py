"""Every check of the whole book, by id, with its page."""

from collections.abc import Callable, Iterator
from inspect import getdoc
from types import ModuleType
from typing import NamedTuple

from recommender.checking import (
    always_holds,
    bare_number,
    fit_class_pairs,
    hidden_rule,
    idle_input,
    near_limit,
    never_holds,
    review_due,
    safe_side,
    table_ranges,
    unasked_fact,
    untested_leaf,
    untested_row,
    unused_limit,
    worse_is_milder,
)
from recommender.checking.looked import Looked
from recommender.ground.flaw import Flaw, Level

MODULES: tuple[ModuleType, ...] = (
    always_holds, bare_number, fit_class_pairs, hidden_rule, idle_input, near_limit, never_holds, review_due,
    safe_side, table_ranges, unasked_fact, untested_leaf, untested_row, unused_limit, worse_is_milder,
)  # fmt: skip


class Check(NamedTuple):
    """One check: its id, how grave its flaws usually are, whether it needs a book from which nothing is left out."""

    id: str
    level: Level
    needs_whole: bool
    flaws: Callable[[Looked], Iterator[Flaw]]
    page: str


def _check(module: ModuleType) -> Check:
    return Check(f"rules.{module.ID}", module.LEVEL, module.NEEDS_WHOLE, module.flaws, getdoc(module) or "")


CHECKS = tuple(_check(module) for module in MODULES)
