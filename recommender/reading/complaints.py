"""Our words for what a model finds wrong with data."""

import re
from collections.abc import Callable, Iterable, Mapping
from typing import Any, NamedTuple

from recommender.ground.suggest import did_you_mean


class Complaint(NamedTuple):
    """What is wrong, in our words, and what to do about it."""

    message: str
    advice: str


WANTED = {
    "string_type": "a text",
    "int_type": "a whole number",
    "int_from_float": "a whole number",
    "int_parsing": "a whole number",
    "float_type": "a number",
    "finite_number": "a finite number",
    "bool_type": "`true` or `false`",
    "none_required": "`null`",
    "dict_type": "a mapping of keys and values",
    "model_type": "a mapping of keys and values",
    "model_attributes_type": "a mapping of keys and values",
    "list_type": "a list",
    "tuple_type": "a list",
    "set_type": "a list",
    "frozen_set_type": "a list",
}
HOW = {
    "a text": "Write a text; a number or `true` that is meant as text goes in quotes.",
    "a list": "Write it in square brackets, also when it has only one entry.",
    "a mapping of keys and values": "Write `key: value` pairs here.",
    "`true` or `false`": "Write `true` or `false`.",
}
CORRECT_IT = "Correct it here."


def wrong_value(error: Mapping[str, Any], known: Iterable[str] = ()) -> Complaint:
    """Return our words for one pydantic error about a value.

    `known` are further words that a suggestion may draw on.
    """
    kind = str(error["type"])
    if kind in OWN_WORDS:
        return OWN_WORDS[kind](error, tuple(known))
    if kind in WANTED:
        return _other_kind(error, WANTED[kind])
    return _advised(re.sub(r"^(Input|Value) should ", "this should ", str(error["msg"])))


def _other_kind(error: Mapping[str, Any], wanted: str) -> Complaint:
    advice = HOW.get(wanted, f"Write {wanted}, without quotes and without a unit.")
    return Complaint(f"{wanted} is wanted here, not {describe(error['input'])}", advice)


def _own_error(error: Mapping[str, Any], _known: tuple[str, ...]) -> Complaint:
    return _advised(str(error["ctx"]["error"]))


def _wrong_word(error: Mapping[str, Any], known: tuple[str, ...]) -> Complaint:
    context = error["ctx"]
    permitted = re.findall(r"'([^']*)'", str(context.get("expected", context.get("expected_tags", ""))))
    given = context.get("tag", error["input"])
    message = f"{describe(given)} is not one of the words possible here"
    if not permitted:
        return Complaint(message, f"Possible is {context.get('expected')}.")
    words = [*(word.strip("<>") for word in permitted), *known]
    return Complaint(message, did_you_mean(given if isinstance(given, str) else "", words))


def _length(error: Mapping[str, Any], _known: tuple[str, ...]) -> Complaint:
    context = error["ctx"]
    least, most = context.get("min_length"), context.get("max_length")
    what = "characters" if str(error["type"]).startswith("string") else "entries"
    bound = f"at least {least}" if least is not None else f"at most {most}"
    said = f"{bound} {what} are needed here" if least is not None else f"{bound} {what} may stand here"
    return Complaint(said, f"This has {_count(error)}; write {bound}.")


def _count(error: Mapping[str, Any]) -> int:
    actual = error["ctx"].get("actual_length")
    return len(error["input"]) if actual is None else int(actual)


OWN_WORDS: dict[str, Callable[[Mapping[str, Any], tuple[str, ...]], Complaint]] = {
    "value_error": _own_error,
    "assertion_error": _own_error,
    "literal_error": _wrong_word,
    "enum": _wrong_word,
    "union_tag_invalid": _wrong_word,
    "too_short": _length,
    "too_long": _length,
    "string_too_short": _length,
    "string_too_long": _length,
}


def describe(given: object) -> str:
    """Return what was written, short enough for a message."""
    if isinstance(given, bool) or given is None:
        return f"`{str(given).lower()}`" if given is not None else "`null`"
    if isinstance(given, dict):
        return "a mapping"
    if isinstance(given, list | tuple):
        return "a list"
    text = str(given)
    shown = text if len(text) <= 40 else f"{text[:37]}..."
    return f"the text `{shown}`" if isinstance(given, str) else f"`{shown}`"


def _advised(words: str) -> Complaint:
    """Return the words up to the first `; ` as the message, the rest as the advice."""
    message, _, advice = words.partition("; ")
    if not advice:
        return Complaint(message, CORRECT_IT)
    return Complaint(message, advice[0].upper() + advice[1:].rstrip(".") + ("" if advice.endswith("?") else "."))
