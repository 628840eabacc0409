"""The one line of arithmetic a bench engineer writes beside a case, computed again."""

import re
from dataclasses import dataclass
from decimal import Decimal, DivisionByZero, InvalidOperation

TOKEN = re.compile(r"\s*(?:(\d+(?:\.\d+)?)|([-+*/()]))")
LONGEST = 300
RESULT = re.compile(r"\s*(-?\d+(?:\.(\d+))?)(?:\s+(\S.*))?\s*")


@dataclass(frozen=True, slots=True)
class Recomputed:
    """One line of arithmetic computed again: the value found, the value printed, and the words after it."""

    found: Decimal
    printed: Decimal
    decimals: int
    words: str

    @property
    def agrees(self) -> bool:
        """Return whether the found value lies within half a unit of the last printed decimal."""
        return abs(self.found - self.printed) <= Decimal(5).scaleb(-self.decimals - 1)


class _Sum:
    """Reads `a op b ...` from left to right: products bind tighter than sums, brackets tightest."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.tokens = _tokens(text)
        self.next = 0

    def whole(self) -> Decimal:
        value = self._sum()
        if self.next < len(self.tokens):
            raise ValueError(f"`{self.tokens[self.next]}` in `{self.text.strip()}` does not belong there")
        return value

    def _take(self, wanted: str) -> str | None:
        if self.next < len(self.tokens) and self.tokens[self.next] in wanted:
            self.next += 1
            return self.tokens[self.next - 1]
        return None

    def _sum(self) -> Decimal:
        value = self._product()
        while sign := self._take("+-"):
            term = self._product()
            value = value + term if sign == "+" else value - term
        return value

    def _product(self) -> Decimal:
        value = self._factor()
        while sign := self._take("*/"):
            factor = self._factor()
            value = value * factor if sign == "*" else value / factor
        return value

    def _factor(self) -> Decimal:
        if self._take("-"):
            return -self._factor()
        if self._take("("):
            value = self._sum()
            if not self._take(")"):
                raise ValueError(f"a bracket in `{self.text.strip()}` is not closed")
            return value
        if self.next >= len(self.tokens) or not self.tokens[self.next][0].isdigit():
            raise ValueError(f"`{self.text.strip()}` lacks a number")
        self.next += 1
        return Decimal(self.tokens[self.next - 1])


def recompute(text: str) -> Recomputed:
    """Return `46.032 - 45.972 = 0.060 mm tight` computed again.

    Left of the last `=` stand numbers with `+ - * /` and brackets and nothing else; right of it one number,
    then any words. Raises ValueError saying what cannot be read. Nothing is ever evaluated as code.
    """
    if len(text) > LONGEST:
        raise ValueError(f"one line of at most {LONGEST} characters is read, not {len(text)}")
    left, equals, right = text.rpartition("=")
    if not equals or "=" in left:
        raise ValueError(f"`{text}` is not of the form `46.032 - 45.972 = 0.060 mm tight`")
    result = RESULT.fullmatch(right)
    if result is None:
        raise ValueError(f"after `=` in `{text}` a number is needed, then any words")
    try:
        found = _Sum(left).whole()
    except (DivisionByZero, InvalidOperation):
        raise ValueError(f"`{text}` divides by nothing") from None
    return Recomputed(found, Decimal(result[1]), len(result[2] or ""), (result[3] or "").strip())


def _tokens(text: str) -> list[str]:
    found: list[str] = []
    at = 0
    while text[at:].strip():
        match = TOKEN.match(text, at)
        if match is None:
            raise ValueError(f"`{text[at:].strip()}` is not arithmetic: numbers and + - * / ( ) only")
        found.append(match[1] or match[2])
        at = match.end()
    return found
