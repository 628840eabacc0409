"""The closed table of what an unquoted YAML scalar means here.

Spellings that YAML 1.1 and YAML 1.2 read differently are refused, so that editor, tool and reader agree.
"""

import math
import re
from typing import NamedTuple

Scalar = str | int | float | bool | None

INTEGER = re.compile(r"[-+]?(?:0|[1-9][0-9]*)")
NUMBER = re.compile(r"[-+]?(?:(?:0|[1-9][0-9]*)(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][-+]?[0-9]+)?")
LONGEST_NUMBER = 30
NUMBER_STARTS = "0123456789+-."
WORDS: dict[str, Scalar] = {"true": True, "false": False, "null": None}
QUOTE = "put it in quotes if it is meant as text"


class Refusal(NamedTuple):
    """Why a scalar is refused, and what to write instead."""

    message: str
    advice: str


class RefusedScalar(ValueError):
    """Raised for an unquoted scalar that is not in the table."""

    def __init__(self, refusal: Refusal) -> None:
        """Keep message and advice."""
        super().__init__(refusal.message)
        self.refusal = refusal


TOO_LONG = Refusal("this number is longer or larger than anything measured here", f"Shorten it; {QUOTE}.")


def plain_value(text: str) -> Scalar:
    """Return what an unquoted scalar means: integer, number, true, false, null or text.

    Raises RefusedScalar for spellings that mean different things to different readers.
    """
    if text in WORDS:
        return WORDS[text]
    refusal = _refusal(text)
    if refusal is not None:
        raise RefusedScalar(refusal)
    if text[:1] not in NUMBER_STARTS or len(text) > LONGEST_NUMBER:
        return text
    if INTEGER.fullmatch(text):
        return int(text)
    return float(text) if NUMBER.fullmatch(text) else text


def _refusal(text: str) -> Refusal | None:
    if text.casefold() in SWITCHES or text == "~":
        return _switch(text)
    if text[:1] not in NUMBER_STARTS:
        return None
    if len(text) > LONGEST_NUMBER:
        return None if text.lstrip("+-").strip("0123456789.,:_") else TOO_LONG
    for pattern, message, advice in TRAPS:
        match = pattern.fullmatch(text)
        if match:
            return Refusal(message.format(text=text), match.expand(advice) + f"; {QUOTE}.")
    return TOO_LONG if NUMBER.fullmatch(text) and math.isinf(float(text)) else None


def _switch(text: str) -> Refusal:
    meant = SWITCHES.get(text.casefold(), "null")
    return Refusal(
        f"`{text}` is read as {meant} by some programs and as text by others",
        f"Write `{meant}`; {QUOTE}.",
    )


SWITCHES = {
    **dict.fromkeys(("yes", "on", "y", "true"), "true"),
    **dict.fromkeys(("no", "off", "n", "false"), "false"),
    "null": "null",
}
TRAPS = tuple(
    (re.compile(pattern), message, advice)
    for pattern, message, advice in (
        (r"([-+]?[0-9]+),([0-9]+)", "`{text}` has a decimal comma", r"Write \1.\2"),
        (
            r"[-+]?[0-9][0-9_]*(?::[0-9]+)+(?:\.[0-9_]*)?",
            "`{text}` is read as a number to base 60 by some programs",
            "Write a plain number",
        ),
        (
            r"([-+]?)0+([0-9]+(?:\.[0-9]*)?(?:[eE][-+]?[0-9]+)?)",
            "`{text}` starts with a zero, which some programs read as octal",
            r"Write \1\2, or a point where a decimal comma was meant",
        ),
        (
            r"[-+]?0(?:[oO][0-7_]+|[xX][0-9a-fA-F_]+|[bB][01_]+)",
            "`{text}` is a number in octal, hexadecimal or binary",
            "Write it as a decimal number",
        ),
        (
            r"[-+]?\.(?:inf|Inf|INF|nan|NaN|NAN)",
            "`{text}` is not a number that can be measured",
            "Write a number",
        ),
        (
            r"[-+]?[0-9][0-9_]*_[0-9_]*(?:\.[0-9_]*)?(?:[eE][-+]?[0-9]+)?|[-+]?[0-9]+\.[0-9]*_[0-9_]*",
            "`{text}` has underscores, which some programs drop from a number",
            "Write the digits without underscores",
        ),
    )
)
