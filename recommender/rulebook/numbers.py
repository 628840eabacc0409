"""Numbers in rules: limits by id or quantities with their unit, brought to the unit of the fact they meet."""

import re
from collections.abc import Mapping
from typing import NamedTuple

from recommender.facts.fact import Fact
from recommender.ground.quantity import UNITS, convert, parse, same_kind, show
from recommender.ground.suggest import did_you_mean
from recommender.logic.conditions import Operand
from recommender.rulebook.book import Limit

LOOKS_LIKE_A_NUMBER = re.compile(r"\s*[-+.]?[.]?[0-9]")
DIGITS = 9


class Wrong(NamedTuple):
    """What is wrong with something written in a rule, and what to do about it."""

    check: str
    message: str
    advice: str


def number_operand(given: object, fact: Fact, limits: Mapping[str, Limit]) -> Operand | Wrong:
    """Return the operand a comparison of numbers names: a limit by id, or a quantity."""
    if isinstance(given, str) and not LOOKS_LIKE_A_NUMBER.match(given):
        return _of_limit(given, fact, limits)
    value = number_of(given, fact)
    return value if isinstance(value, Wrong) else Operand(value, None, show(value, fact.unit))


def number_of(given: object, fact: Fact) -> float | Wrong:
    """Return a quantity in the unit of a fact; a bare number is only one where the fact has no unit."""
    text = str(given) if not isinstance(given, bool) else "true"
    try:
        quantity = parse(text)
    except ValueError as error:
        message, _, advice = str(error).partition("; ")
        return Wrong("not-a-number", message, advice[:1].upper() + advice[1:] + "." if advice else _like(fact))
    if quantity.unit == "1" and fact.unit != "1":
        return Wrong("unit-missing", f"`{given}` has no unit, and {fact.id} is in {fact.unit}", _like(fact))
    if not same_kind(quantity.unit, fact.unit):
        return Wrong("unit", f"{_kind(quantity.unit)} is compared with {fact.id}, {_kind(fact.unit)}", _like(fact))
    return _in_span(round(quantity.to(fact.unit), DIGITS), fact)


def _in_span(value: float, fact: Fact) -> float | Wrong:
    if fact.span is None or fact.span[0] <= value <= fact.span[1]:
        return value
    low, high = (show(end, fact.unit) for end in fact.span)
    message = f"{show(value, fact.unit)} is outside what {fact.id} can be, {low} to {high}"
    return Wrong("range", message, "Check number and unit.")


def _of_limit(name: str, fact: Fact, limits: Mapping[str, Limit]) -> Operand | Wrong:
    limit = limits.get(name)
    if limit is None:
        return Wrong("unknown-limit", f"there is no limit `{name}`", did_you_mean(name, limits))
    if not same_kind(limit.unit, fact.unit):
        message = f"{name} is {_kind(limit.unit)}, and {fact.id} is {_kind(fact.unit)}"
        return Wrong("unit", message, "Compare the fact with a limit of its own kind.")
    return Operand(round(convert(limit.value, limit.unit, fact.unit), DIGITS), name, limit.shown)


def _like(fact: Fact) -> str:
    unit = "" if fact.unit == "1" else f" {fact.unit}"
    return f"Write a number such as `5{unit}`, or the id of a limit."


def _kind(unit: str) -> str:
    return "a number without a unit" if unit == "1" else f"a {UNITS[unit].kind.replace('_', ' ')} in {unit}"
