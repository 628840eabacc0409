"""What differs between two records: case, rules, limits and engine on the one hand, what was decided on the other."""

import difflib
from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from recommender.records.entries import ORDER
from recommender.records.record import BookKept, Content, Record

NONE = "none"
SILENT = "fails"
MAKES = ("od_mm", "window_mm", "bore_mm", "sleeve", "lands", "wall_left", "tolerance", "press_force")


class Change(NamedTuple):
    """One thing that differs: where or what, and how it stood before and after (`none` where it was not)."""

    where: str
    before: str
    after: str


class BookChanges(NamedTuple):
    """What differs between two rule books: limits with their values, rules, and every other entry by section and id."""

    limits: tuple[Change, ...]
    rules: tuple[Change, ...]
    others: tuple[Change, ...]

    def __bool__(self) -> bool:
        """Return whether anything differs."""
        return any(self)


class Difference(NamedTuple):
    """What differs between two records of one frame.

    `case` are the lines of the case text that differ, marked `-` and `+`; `engine` is None when it is the same.
    `verdicts` are those of frame and sides with the part they name, `outcomes` those of remedies, options and rules,
    `facts` every fact and every number to be made whose value or interval differs as rounded.
    """

    case: tuple[str, ...]
    book: BookChanges
    engine: Change | None
    verdicts: tuple[Change, ...]
    outcomes: tuple[Change, ...]
    facts: tuple[Change, ...]

    @property
    def stands(self) -> bool:
        """Return whether the same was decided, on the same numbers."""
        return not (self.verdicts or self.outcomes or self.facts)


def same_frame(one: Record, two: Record) -> bool:
    """Return whether two records are known to be of one frame: of one case, or one follows the other."""
    follows = [(each.content.advice["case"]["follows"], other.id) for each, other in ((one, two), (two, one))]
    return one.content.case == two.content.case or any(told == other for told, other in follows)


def difference(before: Content, after: Content) -> Difference:
    """Return what differs between two records."""
    one, two = before.advice, after.advice
    engine = None if one["engine"] == two["engine"] else Change("engine", one["engine"], two["engine"])
    return Difference(
        _lines(before.case_text, after.case_text),
        book_changes(before.book, after.book),
        engine,
        changed(verdicts_of(one), verdicts_of(two)),
        (*changed(outcomes_of(one), outcomes_of(two)), *changed(_rules(one), _rules(two), absent=SILENT)),
        _facts(one, two),
    )


def book_changes(before: BookKept, after: BookKept) -> BookChanges:
    """Return which entries of the rule book differ; a limit that kept its value but not its text is among others."""
    limits = changed(before.limits, after.limits)
    moved = {each.where for each in limits}
    sections = sorted({*before.entries, *after.entries})
    other = {name: changed(before.entries.get(name, {}), after.entries.get(name, {})) for name in sections}
    rules = tuple(_named(each) for each in other.pop("rules", ()) if each.where != ORDER)
    return BookChanges(limits, rules, tuple(
        _named(each, f"{name} ") for name, found in other.items() for each in found
        if not (name == "limits" and each.where in moved)
    ))  # fmt: skip


def changed(before: Mapping[str, str], after: Mapping[str, str], absent: str = NONE) -> tuple[Change, ...]:
    """Return what differs between two mappings of texts, sorted; `absent` stands for what is not there."""
    pairs = ((key, before.get(key, absent), after.get(key, absent)) for key in sorted({*before, *after}))
    return tuple(Change(*each) for each in pairs if each[1] != each[2])


def verdicts_of(advice: Mapping[str, Any]) -> dict[str, str]:
    """Return the verdicts of a stored advice: of the frame, of each side, and the part each side names."""
    sides = advice["sides"].items()
    parts = {f"{name}, part": side["make"]["part"] for name, side in sides if side["make"] is not None}
    return {"frame": advice["frame"]["verdict"]} | {name: side["verdict"] for name, side in sides} | parts


def outcomes_of(advice: Mapping[str, Any]) -> dict[str, str]:
    """Return the outcome of every remedy and option of a stored advice."""
    found: dict[str, str] = {}
    for name, side in advice["sides"].items():
        for remedy in side["remedies"]:
            where = f"{name}/{remedy['id']}"
            found[where] = remedy["outcome"]
            found |= {f"{where}/{each['part']}": each["outcome"] for each in remedy["options"]}
    return found


def _rules(advice: Mapping[str, Any]) -> dict[str, str]:
    """Return the outcome of every rule on its subjects; one that fails says as little as one that was not run."""
    runs = (node for node in advice["trace"].values() if node["node"] == "RuleRun")
    told = {f"rule {node['rule']} on {node['subject']}": node["outcome"] for node in runs}
    return {where: outcome for where, outcome in told.items() if outcome != SILENT}


def facts_of(advice: Mapping[str, Any]) -> dict[str, Mapping[str, Any]]:
    """Return every fact of a stored advice, by scope and id."""
    return dict(_every_fact(advice))


def _facts(before: Mapping[str, Any], after: Mapping[str, Any]) -> tuple[Change, ...]:
    one, two = facts_of(before), facts_of(after)
    differing = (key for key in sorted({*one, *two}) if _core(one.get(key)) != _core(two.get(key)))
    shown = (Change(key, *(each[key]["shown"] if key in each else NONE for each in (one, two))) for key in differing)
    return (*shown, *changed(_made(before), _made(after)))


def _every_fact(advice: Mapping[str, Any]) -> Iterator[tuple[str, Mapping[str, Any]]]:
    for fact, found in advice["frame"]["facts"].items():
        yield f"frame/{fact}", found
    for name, side in advice["sides"].items():
        for fact, found in side["facts"].items():
            yield f"{name}/{fact}", found
        for remedy in side["remedies"]:
            for option in remedy["options"]:
                for fact, found in option["facts"].items():
                    yield f"{name}/{remedy['id']}/{option['part']}/{fact}", found


def _core(found: Mapping[str, Any] | None) -> tuple[Any, ...]:
    """Return what counts of a fact: number and interval as stored, word, or that it is unknown, whatever the reason."""
    if found is None:
        return ()
    return (*(found.get(each) for each in ("value", "low", "high", "word")), "unknown" in found)


def _made(advice: Mapping[str, Any]) -> dict[str, str]:
    made = {name: side["make"] for name, side in advice["sides"].items() if side["make"] is not None}
    return {f"{name}, {key}": _text(make[key]) for name, make in made.items() for key in MAKES if make[key]}


def _text(value: Any) -> str:
    if isinstance(value, Mapping):
        return ", ".join(f"{key} {_text(each)}" for key, each in sorted(value.items()))
    return " to ".join(_text(each) for each in value) if isinstance(value, list | tuple) else str(value)


def _named(change: Change, lead: str = "") -> Change:
    """Return a change of an entry in words, for its hashes tell nobody anything."""
    word = "new" if change.before == NONE else "gone" if change.after == NONE else "changed"
    return Change(f"{lead}{change.where}", NONE if word == "new" else "as kept", word)


def _lines(before: str, after: str) -> tuple[str, ...]:
    if before == after:
        return ()
    lines = list(difflib.unified_diff(before.splitlines(), after.splitlines(), lineterm="", n=0))[2:]
    return tuple(each for each in lines if not each.startswith("@@"))
