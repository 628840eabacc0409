"""The case once more with one thing added: what is open then, by the pipeline itself."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from recommender.bench.case import Case
from recommender.bench.gauges import Gauge
from recommender.bench.load import LoadedCase
from recommender.bench.readings import Readings
from recommender.bench.sheets import number_text
from recommender.deciding.decide import Decision, decide
from recommender.deciding.questions import questions_of
from recommender.deciding.runs import Run
from recommender.deciding.sides import SideDecision
from recommender.deriving.derive import derive
from recommender.deriving.derived import SideName
from recommender.facts.value import FactValue
from recommender.logic.conditions import NUMBER_OPS
from recommender.logic.evaluate import Check
from recommender.rulebook.book import Rulebook


class Open(NamedTuple):
    """A question the advice holds: its fact and side, what to do, what it would settle."""

    fact: str
    side: SideName | None
    do: str
    would_settle: tuple[str, ...]


class OpenCheck(NamedTuple):
    """A check of a rule that is not clear of its limits; `limits` are in the fact's unit, none for flags and words."""

    side: SideName
    fact: str
    found: FactValue
    limits: tuple[float, ...]


def decided(loaded: LoadedCase, book: Rulebook) -> Decision:
    """Return the decision on a case; raises Flawed as deriving does."""
    return decide(derive(loaded, book), book)


def open_questions(decision: Decision, book: Rulebook) -> tuple[Open, ...]:
    """Return the open questions of a decision that name a fact."""
    return tuple(
        Open(each.fact, each.side, each.do, each.would_settle)
        for each in questions_of(decision, book) if each.fact is not None
    )


def open_checks(decision: Decision) -> tuple[OpenCheck, ...]:
    """Return every check behind the open questions of the two sides, each once."""
    found = dict.fromkeys(
        OpenCheck(name, check.leaf.fact.id, check.found, _limits(check))
        for name, side in decision.sides.items()
        for run in _open_runs(side)
        for check in run.deciding
    )
    return tuple(found)


def with_readings(
    loaded: LoadedCase, side: SideName, readings: Sequence[tuple[str, float, float, float]]
) -> LoadedCase:
    """Return the case with more readings: instrument, depth in mm, turn in degrees, value in mm as shown."""
    blocks = tuple(
        Readings.model_validate(
            {"instrument": instrument, "unit": "mm", "turns": [turn], "at": {number_text(depth): [value]}})
        for instrument, depth, turn, value in readings
    )
    return _with(loaded, side, {"readings": (*getattr(loaded.case.sides, side).readings, *blocks), "reason": None})


def with_gauge(loaded: LoadedCase, side: SideName, size: float, *, enters: bool) -> LoadedCase:
    """Return the case with one more try of a go plug."""
    result = "enters_fully" if enters else "did_not_enter"
    gauge = Gauge.model_validate({"kind": "go", "size": f"{size:.4f} mm", "result": result})
    return _with(loaded, side, {"gauges": (*getattr(loaded.case.sides, side).gauges, gauge)})


def _with(loaded: LoadedCase, side: SideName, update: dict[str, object]) -> LoadedCase:
    case: Case = loaded.case
    changed = getattr(case.sides, side).model_copy(update=update)
    sides = case.sides.model_copy(update={side: changed})
    return loaded._replace(case=case.model_copy(update={"sides": sides}))


def _open_runs(side: SideDecision) -> Iterator[Run]:
    yield from side.because
    for remedy in side.waiting:
        for option in remedy.unsettled:
            yield from option.open


def _limits(check: Check) -> tuple[float, ...]:
    if check.leaf.op not in NUMBER_OPS:
        return ()
    return tuple(float(each.value) for each in check.leaf.wanted)
