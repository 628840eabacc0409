"""The book as plain data in one fixed spelling, and its fingerprint. Places, comments and file order do not count."""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from functools import cache
from typing import Any

from recommender.facts.fact import Fact
from recommender.ground.place import Place
from recommender.rulebook.book import Rulebook

NOT_DATA = frozenset({"place", "places", "layer", "fingerprint", "edited", "house_changes", "house_void"})


def plain(value: Any) -> Any:
    """Return a piece of the book as lists, mappings, texts and numbers; facts by id."""
    if value is None or isinstance(value, str | int | float):
        return value
    if isinstance(value, Fact):
        return value.id
    if isinstance(value, Place):
        return None
    kind: type = type(value)
    names = _data_of(kind)
    if names is not None:
        return {name: plain(getattr(value, name)) for name in names}
    if isinstance(value, Mapping):
        return {str(key): plain(each) for key, each in value.items()}
    if isinstance(value, tuple | list):
        return [plain(each) for each in value]
    return value.isoformat() if isinstance(value, date) else value


@cache
def _data_of(kind: type) -> tuple[str, ...] | None:
    """Return the fields of a kind of object that count, None where it has no fields."""
    return tuple(each.name for each in fields(kind) if each.name not in NOT_DATA) if is_dataclass(kind) else None


def digest(data: Any) -> str:
    """Return the sha256 of plain data in canonical JSON."""
    text = json.dumps(data, sort_keys=True, ensure_ascii=True, separators=(",", ":"), allow_nan=False)
    return hashlib.sha256(text.encode("ascii")).hexdigest()


def fingerprint(book: Rulebook) -> str:
    """Return the fingerprint of everything effective in a book."""
    return digest(plain(book))
