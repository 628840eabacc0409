"""The book as plain data in one fixed spelling, and its fingerprint. Places, comments and file order do not count."""

import hashlib
import json
from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from functools import cache
from operator import attrgetter
from typing import Any

from recommender.facts.fact import Fact
from recommender.ground.place import Place
from recommender.rulebook.book import Rulebook

AS_IT_IS = frozenset({str, int, float, bool, type(None)})
NOT_DATA = frozenset({"place", "places", "layer", "fingerprint", "edited", "house_changes", "house_void"})


def plain(value: Any) -> Any:
    """Return a piece of the book as lists, mappings, texts and numbers; facts by id."""
    kind: type = type(value)
    return value if kind in AS_IT_IS else _way_of(kind)(value)


@cache
def _way_of(kind: type) -> Callable[[Any], Any]:
    """Return how a kind of object is spelt."""
    if issubclass(kind, Fact):
        return attrgetter("id")
    if issubclass(kind, Place):
        return lambda _: None
    if is_dataclass(kind):
        names = [each.name for each in fields(kind) if each.name not in NOT_DATA]
        return lambda value: {name: plain(getattr(value, name)) for name in names}
    if issubclass(kind, Mapping):
        return lambda value: {str(key): plain(each) for key, each in value.items()}
    if issubclass(kind, tuple | list):
        return lambda value: [each if type(each) in AS_IT_IS else plain(each) for each in value]
    return date.isoformat if issubclass(kind, date) else lambda value: value


def digest(data: Any) -> str:
    """Return the sha256 of plain data in canonical JSON."""
    text = json.dumps(data, sort_keys=True, ensure_ascii=True, separators=(",", ":"), allow_nan=False)
    return hashlib.sha256(text.encode("ascii")).hexdigest()


def fingerprint(book: Rulebook) -> str:
    """Return the fingerprint of everything effective in a book."""
    return digest(plain(book))
