"""Two rule books compared on kept records: the facts are stored, so nothing has to be measured or computed again."""

from collections.abc import Container, Iterable, Mapping
from datetime import date
from pathlib import Path
from typing import Any

from recommender.deriving.derive import derive
from recommender.deriving.derived import SIDES, Derived, OptionFacts, SideFacts
from recommender.facts.catalogue import CATALOGUE
from recommender.facts.value import FactValue
from recommender.ground.flaw import Flaw, Flawed
from recommender.records.case_text import load_case_text
from recommender.records.decided import read_decided
from recommender.records.record import Content, file_shown
from recommender.records.store import record_files
from recommender.trials.compare import Between, BookOn, Comparison, Moved, Pairs, gathered


def compare_records(paths: Iterable[Path], old: BookOn, new: BookOn) -> Comparison:
    """Return what differs on every record in these files and folders, each by the books of the day of its case.

    Where the two books differ in what formulas read, the case text in the record is derived again by both.
    """
    pairs = Pairs(old, new)
    found: list[tuple[str, tuple[Moved, ...] | tuple[Flaw, ...], bool]] = []
    for path in record_files(paths):
        try:
            content = read_decided(path)
            day = date.fromisoformat(str(content.advice["case"]["received"]))
            found.append((content.case, _of_record(content, pairs.on(day)), True))
        except Flawed as refused:
            found.append((str(path), refused.flaws, False))
    return gathered(found, pairs.kept)


def stored_facts(advice: Mapping[str, Any], wanted: Container[str] = CATALOGUE) -> Derived:
    """Return the facts of a stored advice as the rules see them: all, or only those wanted."""
    sides = {name: _side(advice["sides"][name], wanted) for name in SIDES}
    frame = _facts(advice["frame"]["facts"], wanted)
    return Derived(frame, sides, {}, bool(advice["frame"]["damage"]) and _crack(advice))


def _of_record(content: Content, between: Between) -> tuple[Moved, ...]:
    if between.same_facts:
        if between.silent_on(stored_facts(content.advice, between.asked)):
            return ()
        facts = stored_facts(content.advice)
        return between.moved(content.case, facts, facts)
    loaded = load_case_text(content.case_text, file_shown(content.case))
    return between.moved(content.case, derive(loaded, between.old), derive(loaded, between.new))


def _side(side: Mapping[str, Any], wanted: Container[str]) -> SideFacts:
    options = tuple(
        OptionFacts(remedy["id"], option["part"], option["part_id"], _facts(option["facts"], wanted),
                    condition=option["condition"])
        for remedy in side["remedies"] for option in remedy["options"]
    )  # fmt: skip
    return SideFacts(_facts(side["facts"], wanted), options)


def _facts(found: Mapping[str, Mapping[str, Any]], wanted: Container[str]) -> dict[str, FactValue]:
    return {name: _value(name, each) for name, each in found.items() if name in wanted and name in CATALOGUE}


def _value(name: str, found: Mapping[str, Any]) -> FactValue:
    return FactValue(
        name, found.get("value"), found.get("low"), found.get("high"), found.get("word"), found.get("unknown") or "",
        float(found.get("sampling") or 0.0), bool(found.get("assumed")),
    )  # fmt: skip


def _crack(advice: Mapping[str, Any]) -> bool:
    return advice["frame"]["facts"].get("damage.crack", {}).get("word") is True
