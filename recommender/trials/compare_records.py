"""Two rule books compared on kept records: the facts are stored, so nothing has to be measured or computed again."""

from collections.abc import Container, Iterable, Mapping
from datetime import date
from pathlib import Path

from recommender.deriving.derive import derive
from recommender.deriving.derived import SIDES, Derived, OptionFacts, SideFacts
from recommender.facts.catalogue import CATALOGUE
from recommender.facts.value import FactValue
from recommender.ground.flaw import Flaw, Flawed
from recommender.records.case_text import load_case_text
from recommender.records.decided import Decided, StoredAdvice, StoredOption, StoredSide, StoredValue, read_decided
from recommender.records.record import file_shown
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
            decided = read_decided(path)
            case = decided.advice.case
            found.append((case.id, _of_record(decided, pairs.on(date.fromisoformat(case.received))), True))
        except Flawed as refused:
            found.append((str(path), refused.flaws, False))
    return gathered(found, pairs.kept)


def stored_facts(advice: StoredAdvice, wanted: Container[str] = CATALOGUE) -> Derived:
    """Return the facts of a stored advice as the rules see them: all, or only those wanted."""
    frame = advice.frame.facts
    crack = frame.get("damage.crack")
    sides = {name: _side(advice.sides[name], wanted) for name in SIDES}
    return Derived(_facts(frame, wanted), sides, {}, advice.frame.damage and crack is not None and crack.word is True)


def _of_record(decided: Decided, between: Between) -> tuple[Moved, ...]:
    case = decided.advice.case.id
    if between.same_facts:
        if between.silent_on(stored_facts(decided.advice, between.asked)):
            return ()
        facts = stored_facts(decided.advice)
        return between.moved(case, facts, facts)
    loaded = load_case_text(decided.case_text, file_shown(case))
    return between.moved(case, derive(loaded, between.old), derive(loaded, between.new))


def _side(side: StoredSide, wanted: Container[str]) -> SideFacts:
    options = tuple(
        OptionFacts(remedy.id, option.part, option.part_id, _of_option(option, wanted), condition=option.condition)
        for remedy in side.remedies for option in remedy.options
    )  # fmt: skip
    return SideFacts(_facts(side.facts, wanted), options)


def _of_option(option: StoredOption, wanted: Container[str]) -> dict[str, FactValue]:
    """Return the facts of an option; its diameter names the part in hand it was measured on, by the label it has."""
    found = option.facts
    facts = _facts(found, wanted)
    measured = found.get("part.measured")
    if "part.od" in facts and measured is not None and measured.word is True:
        facts["part.od"] = facts["part.od"]._replace(inputs=(f"case:parts.{option.part.replace('.', ' ')}",))
    return facts


def _facts(found: Mapping[str, StoredValue], wanted: Container[str]) -> dict[str, FactValue]:
    return {name: _value(name, each) for name, each in found.items() if name in wanted and name in CATALOGUE}


def _value(name: str, found: StoredValue) -> FactValue:
    return FactValue(
        name, found.value, found.low, found.high, found.word, found.unknown or "", found.sampling or 0.0,
        found.assumed or False, could_be=found.could_be, applies=not found.not_applicable, beyond=found.beyond or 0.0,
    )  # fmt: skip
