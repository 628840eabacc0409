"""The assembled book as JSON and back: every value as it was, to the last bit."""

import json
from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from types import MappingProxyType
from typing import Any

from recommender.facts.catalogue import CATALOGUE
from recommender.facts.fact import Fact
from recommender.facts.value import FactValue
from recommender.ground.place import Place
from recommender.logic import grids
from recommender.logic.conditions import Group, Leaf, Operand
from recommender.rulebook import book, grid, stock
from recommender.rulebook.book import Rulebook

KINDS: tuple[type, ...] = (
    FactValue, Place, Group, Leaf, Operand, grids.Axis, grids.Band, grids.Grid, grids.Row, grids.Words,
    grid.AnswerGrid, grid.GridExample,
    book.Example, book.HouseChange, book.Limit, book.Remedy, book.Rule, book.Rulebook, book.Subject,
    stock.Balls, stock.Bearing, stock.Bore, stock.Cause, stock.Compound, stock.FitClass, stock.Handling,
    stock.Instrument, stock.Material, stock.Part, stock.Range, stock.Source, stock.Spread, stock.Standard, stock.Table,
    stock.TableRow,
)  # fmt: skip
MAKE: Mapping[str, Callable[..., Any]] = {
    "": lambda *items: items, "fact": CATALOGUE.__getitem__, "date": date.fromisoformat,
    **{each.__name__: each for each in KINDS},
}  # fmt: skip


def stored(value: Rulebook) -> str:
    """Return a book as JSON: each object a list of its kind and its fields, a plain tuple one without a kind.

    Raises TypeError for anything a book does not consist of.
    """
    return json.dumps(_plain(value), ensure_ascii=True, separators=(",", ":"))


def restored(text: str | bytes) -> Rulebook:
    """Return the book stored in a text; raises ValueError, KeyError or TypeError where it is none."""
    found = _made(json.loads(text))
    if not isinstance(found, Rulebook):
        raise TypeError("this is no rule book")
    return found


def _plain(value: Any) -> Any:
    if value is None or isinstance(value, str | int | float):
        return value
    if isinstance(value, Fact):
        return ["fact", value.id]
    if isinstance(value, date):
        return ["date", value.isoformat()]
    if isinstance(value, Mapping):
        return {key: _plain(each) for key, each in value.items()}
    if isinstance(value, KINDS):
        return [type(value).__name__, *map(_plain, _fields(value))]
    if type(value) is tuple:
        return ["", *map(_plain, value)]
    raise TypeError(f"a rule book has no {type(value).__name__}")


def _fields(value: Any) -> list[Any]:
    return [getattr(value, each.name) for each in fields(value)] if is_dataclass(value) else list(value)


def _made(value: Any) -> Any:
    if type(value) is list:
        kind, *given = value
        return MAKE[kind](*[_made(each) if type(each) in (list, dict) else each for each in given])
    if type(value) is dict:
        return MappingProxyType({key: _made(each) for key, each in value.items()})
    return value
