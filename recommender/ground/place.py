"""Where something stands in a file, and the line it stands on with a caret under it."""

import re
from functools import lru_cache
from typing import NamedTuple

LINE_END = re.compile(r"\r\n|\r|\n")
WIDEST_EXCERPT = 100


class Place(NamedTuple):
    """A range in a text file: lines and columns count from 1, the end is exclusive."""

    file: str
    line: int
    column: int
    end_line: int
    end_column: int

    def __str__(self) -> str:
        """Return `file:line:column`."""
        return f"{self.file}:{self.line}:{self.column}"


def whole_file(file: str) -> Place:
    """Return the first position of a file, for flaws that belong to the file as a whole."""
    return Place(file, 1, 1, 1, 1)


def excerpt(text: str, place: Place) -> str:
    """Return the line of `text` at `place` with a caret under each marked character.

    Lines longer than the window are cut around the mark; tabs and control characters become spaces so that
    the caret stays aligned. An empty string is returned when the line does not exist.
    """
    lines = _lines(text)
    if not text or place.line > len(lines):
        return ""
    line = lines[place.line - 1]
    start = place.column - 1
    end = place.end_column - 1 if place.end_line == place.line else len(line)
    left = max(0, start - WIDEST_EXCERPT // 2)
    shown = "".join(c if c.isprintable() else " " for c in line[left : left + WIDEST_EXCERPT])
    width = max(1, min(end, left + WIDEST_EXCERPT) - start)
    head = f"{place.line:>5} | "
    return f"{head}{shown}\n{' ' * (len(head) + start - left)}{'^' * width}"


@lru_cache(maxsize=2)
def _lines(text: str) -> list[str]:
    """Return the lines of a text; kept for the next flaw of the same file."""
    return LINE_END.split(text)
