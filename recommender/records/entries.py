"""Every entry of a rule book with a short hash, so that a later look can name which of them changed."""

from collections.abc import Mapping
from dataclasses import fields
from typing import Any

from recommender.rulebook.book import Rulebook
from recommender.rulebook.canonical import NOT_DATA, digest, plain

LETTERS = 12
ORDER = "(order)"
WHOLE = "(all)"
OF_A_LIMIT = frozenset({"value", "shown"})


def entries_of(book: Rulebook) -> dict[str, dict[str, str]]:
    """Return a hash for each entry of a book, by section and id.

    A rule counts as the same when only a limit it names moved: the limit is an entry of its own. Examples, places
    and sources that only explain do count, for they are part of what was read.
    """
    return {each.name: _section(getattr(book, each.name)) for each in fields(book) if each.name not in NOT_DATA}


def limits_of(book: Rulebook) -> dict[str, str]:
    """Return every limit of a book as people read it, with its unit."""
    return {name: limit.shown for name, limit in sorted(book.limits.items())}


def _section(value: Any) -> dict[str, str]:
    if isinstance(value, Mapping):
        return {str(key): _short(each) for key, each in sorted(value.items())}
    if value and all(hasattr(each, "id") for each in value):
        return {each.id: _short(each) for each in value} | {ORDER: _short([each.id for each in value])}
    return {WHOLE: _short(value)}


def _short(value: Any) -> str:
    return digest(_without_limits(plain(value)))[:LETTERS]


def _without_limits(data: Any) -> Any:
    """Return plain data with the numbers left out that come from a limit."""
    if isinstance(data, dict):
        dropped = OF_A_LIMIT if data.get("limit") and "shown" in data else frozenset()
        return {key: _without_limits(each) for key, each in data.items() if key not in dropped}
    return [_without_limits(each) for each in data] if isinstance(data, list) else data
