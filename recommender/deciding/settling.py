"""What would close an open question, and whether the bench can do it."""

from collections.abc import Iterator
from typing import NamedTuple

from recommender.deciding.narrowing import straddles
from recommender.deciding.runs import Run
from recommender.facts.catalogue import CATALOGUE
from recommender.facts.fact import Fact
from recommender.logic.evaluate import Check

PART = CATALOGUE["part.od"]


class ToSettle(NamedTuple):
    """A fact that is open, and what to do about it; `close` is the check of a known number too near to its limit."""

    fact: Fact
    do: str
    close: Check | None = None


def fact_to_settle(check: Check, run: Run) -> Fact:
    """Return the fact that would close an open check: its own, or the diameter of a part that nobody measured.

    Whatever is unknown of an option because its part was not measured is settled by measuring the part.
    """
    fact = check.leaf.fact
    part = run.facts.get(PART.id)
    unmeasured = part is not None and part.why_unknown not in ("", "not derived")
    return PART if unmeasured and fact.scope == "option" and not check.found.known else fact


def run_can_be_settled(run: Run) -> bool:
    """Return whether the bench can close the question a run leaves open."""
    if run.rule.stance == "asks_first" and run.rule.do:
        return True
    return all(fact_to_settle(check, run).bench_can_settle for check in run.deciding)


def to_settle(run: Run, actions: str) -> Iterator[ToSettle]:
    """Yield what would close the question a run leaves open; `actions` is what its rule says to do, if anything."""
    if actions and run.rule.stance == "asks_first":
        # Conditions name what the frame is first and what is to be settled last.
        yield ToSettle(CATALOGUE[run.rule.facts[-1]], actions)
        return
    checks: dict[Fact, Check] = {}
    for check in run.deciding:
        checks.setdefault(fact_to_settle(check, run), check)
    for fact, check in checks.items():
        yield ToSettle(fact, fact.settle, check if straddles(check) and fact.bench_can_settle else None)
