"""Lines of plain text for a terminal of 80 columns: wrapped, indented, marked where they are headings or notices."""

import textwrap
from collections.abc import Iterable
from typing import Literal, NamedTuple

from recommender.account.inches import where_asked

WIDTH = 80
LABEL = 14
Weight = Literal["plain", "heading", "notice"]


class Line(NamedTuple):
    """One line as printed, and whether it stands out where the terminal can show it."""

    text: str
    weight: Weight = "plain"


BLANK = Line("")


def clean(text: str) -> str:
    """Return a text on one line: control characters would otherwise reach the terminal of whoever reads it."""
    return " ".join("".join(each if each.isprintable() else " " for each in text).split())


def wrapped(text: str, first: str = "", rest: str | None = None, weight: Weight = "plain") -> list[Line]:
    """Return a text in lines of 80 columns; `first` leads the first line, `rest` (as wide, blank) the others."""
    rest = " " * len(first) if rest is None else rest
    lines = textwrap.wrap(
        clean(where_asked(text)), WIDTH, initial_indent=first, subsequent_indent=rest, break_long_words=False,
        break_on_hyphens=False,
    )
    return [Line(line.rstrip(), weight) for line in lines or [first.rstrip()]]


def row(label: str, text: str, indent: int = 2) -> list[Line]:
    """Return a labelled entry, its text in a column of its own; nothing when there is no text."""
    if not text:
        return []
    return wrapped(text, f"{' ' * indent}{label:<{LABEL - 1}} ", " " * (indent + LABEL))


def heading(text: str) -> list[Line]:
    """Return a heading after a blank line."""
    return [BLANK, *wrapped(text, weight="heading")]


def bullets(texts: Iterable[str], indent: int = 2, mark: str = "-") -> list[Line]:
    """Return the texts as a list, one mark each."""
    return [line for text in texts for line in wrapped(text, f"{' ' * indent}{mark} ")]


def numbered(texts: Iterable[str], indent: int = 2) -> list[Line]:
    """Return the texts as a numbered list."""
    return [line for count, text in enumerate(texts, 1) for line in wrapped(text, f"{' ' * indent}{count}. ")]


def section(title: str, lines: list[Line]) -> list[Line]:
    """Return lines under a heading; nothing at all when there are none."""
    return [*heading(title), *lines] if lines else []


def plain(lines: Iterable[Line]) -> str:
    """Return the lines as one text."""
    return "\n".join(line.text for line in lines)
