"""Shows values as people read them and fills the placeholders of a rule's sentence."""

import re
from collections.abc import Callable, Mapping

from recommender.facts.fact import Fact
from recommender.facts.value import FactValue, Word
from recommender.ground.quantity import show
from recommender.logic.conditions import Operand
from recommender.logic.evaluate import Check
from recommender.logic.margins import interval
from recommender.rulebook.book import Limit

AS_WRITTEN = ("frame.candidates", "frame.standard")
PLACEHOLDER = re.compile(r"\{([A-Za-z0-9_.\-]+)\}")


def shown_word(word: Word) -> str:
    """Return a word or flag as people read it: `yes`, `no`, `entered fully`."""
    if isinstance(word, bool):
        return "yes" if word else "no"
    return word.replace("_", " ")


def shown_number(value: float, low: float, high: float, unit: str) -> str:
    """Return a number with its unit, and its 95 % interval where it has a spread: `60.0 um (57.0 to 63.0 um)`."""
    if low == high:
        return show(value, unit)
    ends = show(low, unit).removesuffix(f" {unit}"), show(high, unit)
    return f"{show(value, unit)} ({ends[0]} to {ends[1]})"


def shown_fact(value: FactValue, fact: Fact) -> str:
    """Return what is known of a fact as people read it; that it is unknown or does not apply, with the reason."""
    if value.word is not None:
        return str(value.word) if fact.id in AS_WRITTEN else shown_word(value.word)
    if not value.applies:
        return f"does not apply ({value.why_unknown})"
    if value.value is None or value.low is None or value.high is None:
        return f"unknown ({value.why_unknown})" if value.why_unknown else "unknown"
    shown = shown_number(value.value, value.low, value.high, fact.unit)
    return f"{shown} ({value.note})" if value.note else shown


def filled(text: str, shown: Callable[[str], str]) -> str:
    """Return `text` with every `{id}` replaced by what `shown` says of that fact or limit, in one pass."""
    return PLACEHOLDER.sub(lambda match: shown(match[1]), text)


def wanted(check: Check) -> str:
    """Return what a check wants, in words: `below 0.0 um (polymer_cup.bar_low)`."""
    return _wanted(check, [_named(each, each.limit) for each in check.leaf.wanted])


def limits_shown(check: Check, limits: Mapping[str, Limit]) -> str:
    """Return the limits a check is held against, each with its meaning: `0.0 um (smallest interference)`."""
    return " and ".join(_in_words(check, limits))


def _wanted(check: Check, operands: list[str]) -> str:
    together = " and " if check.leaf.op == "between" else ", "
    return f"{check.leaf.op.replace('_', ' ')} {together.join(operands)}"


def _named(operand: Operand, name: str | None) -> str:
    return operand.shown if name is None else f"{operand.shown} ({name})"


def _in_words(check: Check, limits: Mapping[str, Limit]) -> list[str]:
    """Return the operands of a check, each limit with its meaning in the place of its id."""
    known = (None if each.limit is None else limits.get(each.limit) for each in check.leaf.wanted)
    meant = (None if limit is None else meaning_shown(limit.meaning) for limit in known)
    return [_named(each, meaning) for each, meaning in zip(check.leaf.wanted, meant, strict=True)]


def meaning_shown(meaning: str) -> str:
    """Return what a limit means as it stands inside a sentence."""
    return f"{meaning[:1].lower()}{meaning[1:]}" if meaning[1:2].islower() else meaning


def margin_shown(check: Check) -> str:
    """Return the margin of a check in words, empty where there is none."""
    if check.margin is None:
        return ""
    spreads = "" if check.spreads is None else f", {check.spreads:.1f} spreads"
    return f"{check.margin:+.4g} {check.leaf.fact.unit}{spreads}"


def check_shown(check: Check, limits: Mapping[str, Limit]) -> str:
    """Return a check that does not hold in words: name of the fact, what was found, and the limit or what is needed.

    Limits are named by their meaning; `wanted` keeps their ids.
    """
    fact = check.leaf.fact
    found = f"{fact.name} {shown_fact(check.found, fact)}"
    if check.outcome != "undecided":
        return f"{found}, needed: {_wanted(check, _in_words(check, limits))}"
    if not check.found.known:
        return f"{fact.name} is {shown_fact(check.found, fact)}"
    return f"{found} is not clear of {limits_shown(check, limits)}{_reaching(check)}"


def _reaching(check: Check) -> str:
    """Return how far the interval that decides reaches, where the one shown does not reach the limit itself."""
    found, unit = check.found, check.leaf.fact.unit
    ends = interval(found)
    numbers = [float(each.value) for each in check.leaf.wanted if isinstance(each.value, int | float)]
    if ends is None or not found.beyond or any(ends.low <= each <= ends.high for each in numbers):
        return ""
    end = ends.most if any(ends.high < each <= ends.most for each in numbers) else ends.least
    return f"; at the confidence asked of a decision it may be {show(end, unit)}"
