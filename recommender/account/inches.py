"""Inches beside millimetres, for whoever asked for them: millimetres first, always."""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar

MM_PER_INCH = 25.4
NUMBER = r"[-+]?\d+(?:\.\d+)?"
LENGTH = re.compile(
    rf"(?<![\w.])(?<!x )(?:(?P<low>{NUMBER}) to |(?P<middle>{NUMBER}) \+-)?"
    rf"(?P<value>{NUMBER}) (?P<unit>mm|um)(?![\w/^])"
    rf"(?: \((?P<from>{NUMBER}) to (?P<to>{NUMBER})(?: (?:mm|um))?\))?"
)
MORE_DECIMALS = {"mm": 2, "um": 4}
MOST_DECIMALS = 5
ALSO_INCHES: ContextVar[bool] = ContextVar("also_inches", default=False)


@contextmanager
def also_in_inches(asked: bool = True) -> Iterator[None]:
    """Tell lengths in inches as well while this lasts, on the terminal and on the page."""
    token = ALSO_INCHES.set(asked)
    try:
        yield
    finally:
        ALSO_INCHES.reset(token)


def where_asked(text: str) -> str:
    """Return a text with its lengths in inches as well where that was asked for, else as it is."""
    return with_inches(text) if ALSO_INCHES.get() else text


def with_inches(text: str) -> str:
    """Return a text in which every length in mm or um carries the same in inches behind it, in square brackets.

    Sizes that name a part, such as `30 x 42 x 7 mm`, stay as they are.
    """
    return LENGTH.sub(_told, text)


def _told(found: re.Match[str]) -> str:
    unit = found["unit"]
    value = _inches(found["value"], unit)
    if found["low"] is not None:
        value = f"{_inches(found['low'], unit)} to {value}"
    if found["middle"] is not None:
        value = f"{_inches(found['middle'], unit)} +-{value}"
    interval = f" ({_inches(found['from'], unit)} to {_inches(found['to'], unit)})" if found["from"] else ""
    inside = f"{value} in{interval}"
    return f"{found[0]} [{inside}]"


def _inches(number: str, unit: str) -> str:
    """Return a length in inches, with about as many digits that count as it has in millimetres."""
    decimals = min(MOST_DECIMALS, len(number.partition(".")[2]) + MORE_DECIMALS[unit])
    mm = float(number) / (1000 if unit == "um" else 1)
    shown = f"{mm / MM_PER_INCH:.{decimals}f}"
    return shown.removeprefix("-") if float(shown) == 0 else shown
