"""The facts that grids of the book answer, looked up from the others."""

from collections.abc import Collection, Mapping

from recommender.deriving.derived import Derived, SideFacts
from recommender.facts.catalogue import CATALOGUE
from recommender.facts.fact import Scope
from recommender.facts.value import FactValue, unknown, word
from recommender.rulebook.book import Rulebook
from recommender.rulebook.grid import AnswerGrid

Facts = Mapping[str, FactValue]
BY_GRID = frozenset(fact.id for fact in CATALOGUE.values() if fact.by_grid)


def answered(derived: Derived, book: Rulebook, only: Collection[str] | None = None) -> Derived:
    """Return the facts together with what the grids of a book make of them, in place of any earlier answer.

    `only` are the facts to answer, None for all that grids answer.
    """
    wanted = BY_GRID if only is None else frozenset(only)
    frame = _with_answers(derived.frame, derived.frame, _grids("frame", book, wanted), wanted)
    sides = {name: _side(side, frame, book, wanted) for name, side in derived.sides.items()}
    return derived._replace(frame=frame, sides=sides)


def _side(side: SideFacts, frame: Facts, book: Rulebook, wanted: frozenset[str]) -> SideFacts:
    facts = _with_answers(side.facts, {**frame, **side.facts}, _grids("side", book, wanted), wanted)
    grids, seen = _grids("option", book, wanted), {**frame, **facts}
    options = tuple(
        each._replace(facts=_with_answers(each.facts, {**seen, **each.facts}, grids, wanted)) for each in side.options
    )
    return side._replace(facts=facts, options=options)


def _grids(scope: Scope, book: Rulebook, wanted: frozenset[str]) -> list[AnswerGrid]:
    return [grid for grid in book.grids.values() if grid.answers in wanted and CATALOGUE[grid.answers].scope == scope]


def _with_answers(facts: Facts, seen: Facts, grids: list[AnswerGrid], wanted: frozenset[str]) -> Facts:
    kept = {name: each for name, each in facts.items() if name not in wanted}
    return {**kept, **{grid.answers: _answer(grid, seen) for grid in grids}}


def _answer(grid: AnswerGrid, seen: Facts) -> FactValue:
    words, rows = grid.table.look_up(seen)
    inputs = (*grid.inputs, *(f"limit:{name}" for name in grid.limits), *(f"grid:{grid.id}/{row + 1}" for row in rows))
    if len(words) == 1:
        return word(grid.answers, words[0], inputs)
    may = " or ".join(each.replace("_", " ") for each in words)
    why = f"it may be {may}" if may else "no row of the grid knows such an input"
    return unknown(grid.answers, why, inputs)._replace(could_be=words)
