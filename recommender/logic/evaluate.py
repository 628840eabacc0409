"""Conditions evaluated on facts: every leaf is looked at, none is skipped."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple, TypeAlias

from recommender.facts.value import FactValue, Word, unknown
from recommender.ground.place import Place
from recommender.ground.quantity import show
from recommender.logic.conditions import NUMBER_OPS, Condition, Group, GroupKind, Leaf
from recommender.logic.margins import Interval, compare, in_spreads, interval, outcome_of_number
from recommender.logic.outcome import Outcome, every, none_of, opposite, some

COMBINE = {"every": every, "some": some, "none_of": none_of}


class Check(NamedTuple):
    """One leaf evaluated.

    `margin` is the signed distance, in the fact's unit, from the end of the interval that decides to the limit:
    positive where the leaf holds by that much, negative where it fails by that much; for an undecided leaf it is
    the distance of the median. `spreads` is the margin in half-widths of the interval. Both are None for words,
    for unknown facts, and `spreads` also for exact numbers. `why` says what keeps an undecided leaf open.
    """

    leaf: Leaf
    found: FactValue
    outcome: Outcome
    margin: float | None = None
    spreads: float | None = None
    why: str = ""


class GroupResult(NamedTuple):
    """One group evaluated, with the result of each of its parts in the order written."""

    kind: GroupKind
    outcome: Outcome
    parts: tuple["Result", ...]
    place: Place


Result: TypeAlias = Check | GroupResult


def evaluate(condition: Condition, facts: Mapping[str, FactValue]) -> Result:
    """Return the outcome of a condition with that of all its leaves; a fact that is not given is unknown.

    A number holds or fails only when its whole interval lies on one side of the limit, at the confidence the book
    asks of a decision and with room for three sampling errors of the ends; otherwise it is undecided. A comparison
    of a fact that does not apply fails, also that it is unknown.
    """
    if isinstance(condition, Group):
        parts = tuple(evaluate(part, facts) for part in condition.parts)
        outcome = COMBINE[condition.kind](part.outcome for part in parts)
        return GroupResult(condition.kind, outcome, parts, condition.place)
    found = facts.get(condition.fact.id) or unknown(condition.fact.id, "nothing is known of it")
    return check(condition, found)


def outcome_of(condition: Condition, facts: Mapping[str, FactValue]) -> Outcome:
    """Return the outcome alone, the same as that of `evaluate`, without looking at more than it takes to know it."""
    if not isinstance(condition, Group):
        return _outcome(condition, facts.get(condition.fact.id))
    enough: Outcome = "fails" if condition.kind == "every" else "holds"
    seen: Outcome = opposite(enough)
    for part in condition.parts:
        outcome = outcome_of(part, facts)
        if outcome == enough:
            return opposite(enough) if condition.kind == "none_of" else enough
        if outcome == "undecided":
            seen = outcome
    return opposite(seen) if condition.kind == "none_of" else seen


def _outcome(leaf: Leaf, found: FactValue | None) -> Outcome:
    if found is not None and not found.applies:
        return "fails"
    if leaf.op == "known":
        return "holds" if (found is not None and found.known) is leaf.wanted[0].value else "fails"
    if found is None:
        return "undecided"
    if leaf.op in NUMBER_OPS:
        ends = interval(found)
        return "undecided" if ends is None else outcome_of_number(leaf, ends)
    return _outcome_of_word(leaf, found)


def _outcome_of_word(leaf: Leaf, found: FactValue) -> Outcome:
    """Return the outcome for a word, or for all the words that one not known may be."""
    if found.word is not None:
        return "holds" if _equal(leaf, found.word) else "fails"
    equal = {_equal(leaf, each) for each in found.could_be}
    return "undecided" if len(equal) != 1 else "holds" if equal.pop() else "fails"


def check(leaf: Leaf, found: FactValue) -> Check:
    """Return the outcome of one leaf on the fact it asks."""
    if not found.applies:
        return Check(leaf, found, "fails", why=f"does not apply: {found.why_unknown}")
    if leaf.op == "known":
        return Check(leaf, found, "holds" if found.known is leaf.wanted[0].value else "fails")
    return _check_number(leaf, found) if leaf.op in NUMBER_OPS else _check_word(leaf, found)


def _check_number(leaf: Leaf, found: FactValue) -> Check:
    ends = interval(found)
    if ends is None:
        return Check(leaf, found, "undecided", why=_unknown(found))
    outcome, margin = compare(leaf, ends)
    why = "" if outcome != "undecided" else _straddles(leaf, ends)
    return Check(leaf, found, outcome, margin, in_spreads(margin, ends), why)


def _check_word(leaf: Leaf, found: FactValue) -> Check:
    outcome = _outcome_of_word(leaf, found)
    return Check(leaf, found, outcome, why=_unknown(found) if outcome == "undecided" else "")


def _equal(leaf: Leaf, word: Word) -> bool:
    # A flag and a word never equal each other, and True is not the number 1 here.
    return any(each.value == word and type(each.value) is type(word) for each in leaf.wanted)


def _unknown(found: FactValue) -> str:
    return f"unknown: {found.why_unknown}" if found.why_unknown else "unknown"


def _straddles(leaf: Leaf, ends: Interval) -> str:
    if ends.low == ends.high:
        return f"closer to {_limits(leaf)} than the calculation resolves"
    unit = leaf.fact.unit
    return f"between {show(ends.least, unit)} and {show(ends.most, unit)}: not clear of {_limits(leaf)}"


def _limits(leaf: Leaf) -> str:
    return " and ".join(operand.shown for operand in leaf.wanted)


def checks_of(result: Result) -> Iterator[Check]:
    """Yield every check of a result in the order written."""
    if isinstance(result, Check):
        yield result
        return
    for part in result.parts:
        yield from checks_of(part)


def deciding_checks(result: Result) -> tuple[Check, ...]:
    """Return the checks that made the outcome what it is.

    Of a group that one part is enough for, the parts that were enough; of one that needs all, all of them; of an
    undecided one, the undecided.
    """
    if isinstance(result, Check):
        return (result,)
    wanted = opposite(result.outcome) if result.kind == "none_of" else result.outcome
    return tuple(check for part in result.parts if part.outcome == wanted for check in deciding_checks(part))
