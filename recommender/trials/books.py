"""A rule book by name: the shipped rules, another folder of rules, or a house folder over the shipped ones."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

from recommender.rulebook.book import Rulebook
from recommender.rulebook.folders import read_folder
from recommender.rulebook.load import load

BookOn = Callable[[date], Rulebook]
SHIPPED = "shipped"


def book_named(name: str) -> BookOn:
    """Return the book behind a name as it stood on any day; raises Flawed when it cannot be used.

    `shipped` are the rules that came with the tool. A folder that states remedies is one of rules; any other is a
    house folder, laid over the shipped rules.
    """
    if name == SHIPPED:
        return _always(load())
    folder = Path(name)
    if any("remedies" in document.data for document in read_folder(folder)):
        return _always(load(rules=folder))
    ends = [each.review_by for each in load(folder).house_changes if each.looser]
    kept: dict[tuple[bool, ...], Rulebook] = {}

    def on(day: date) -> Rulebook:
        # Only what could make a decision milder ever ends, so days between the same ends have the same book.
        over = tuple(day > end for end in ends)
        if over not in kept:
            kept[over] = load(folder, on=day)
        return kept[over]

    return on


def _always(book: Rulebook) -> BookOn:
    return lambda _: book
