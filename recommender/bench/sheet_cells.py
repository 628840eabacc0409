"""The cells of a CSV text, each with its place."""

import csv
from collections.abc import Iterator
from io import StringIO
from typing import NamedTuple

from recommender.ground.flaw import Flaw, Flawed, flaw
from recommender.ground.place import Place

SEPARATORS = ",;\t"
MOST_LINES = 20_000
MOST_CELLS = 100


class Cell(NamedTuple):
    """What stands in a cell, without quotes and blanks around it, and where."""

    text: str
    place: Place


def records(text: str, file: str, separator: str) -> Iterator[tuple[Cell, ...]]:
    """Yield the cells of every line that is not empty; raises Flawed at a quote that is not closed."""
    lines = list(StringIO(text, newline=""))
    if len(lines) > MOST_LINES:
        raise Flawed([_too_many(file, text, MOST_LINES + 1, f"more than {MOST_LINES} lines")])
    reader = csv.reader(lines, delimiter=separator, strict=True)
    start = 0
    try:
        for found in reader:
            if len(found) > MOST_CELLS:
                raise Flawed([_too_many(file, text, start + 1, f"more than {MOST_CELLS} cells on one line")])
            places = _places("".join(lines[start : reader.line_num]), file, start + 1, separator)
            start = reader.line_num
            if any(each.strip() for each in found):
                yield tuple(Cell(each.strip(), place) for each, place in zip(found, places, strict=True))
    except csv.Error as refused:
        place = Place(file, start + 1, 1, start + 1, 2)
        advice = "Close the quotes, and write a quote inside a cell twice."
        raise Flawed([flaw("sheet.csv", place, text, f"this line is no CSV ({refused})", advice)]) from None


def _too_many(file: str, text: str, line: int, message: str) -> Flaw:
    advice = "No sheet is that long; is it the right file? Of a scan, keep every second or third point."
    return flaw("sheet.too-many", Place(file, line, 1, line, 2), text, message, advice)


def separator_of(text: str, header: tuple[str, ...]) -> str:
    """Return what separates the cells: the sign that stands between the first two names of the header."""
    lines = [line.replace('"', "").replace(" ", "").casefold() for line in text.splitlines()]
    for each in SEPARATORS:
        if any(line.startswith(each.join(header[:2])) for line in lines):
            return each
    return SEPARATORS[0]


def _places(record: str, file: str, line: int, separator: str) -> list[Place]:
    """Return where each cell of a record stands; a quoted cell may run over several lines.

    A quote opens a cell only where the cell begins; anywhere else it is a sign like any other.
    """
    found: list[Place] = []
    column, quoted, opened, begin = 1, False, False, (line, 1)
    for sign in record.rstrip("\r\n"):
        if sign == '"' and (quoted or opened or (line, column) == begin):
            quoted, opened = not quoted, True
        if sign == separator and not quoted:
            found.append(Place(file, *begin, line, column))
            begin, opened = (line, column + 1), False
        column += 1
        if sign == "\n":
            line, column = line + 1, 1
    return [*found, Place(file, *begin, line, column)]
