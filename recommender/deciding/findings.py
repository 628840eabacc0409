"""What each rule says about its subject, in numbers and in words."""

from collections.abc import Iterable, Iterator, Mapping
from functools import cached_property

from recommender.deciding.answer import CheckShown, Finding, Found, Source
from recommender.deciding.because import check_shown, filled, shown_fact, wanted
from recommender.deciding.contest import excused
from recommender.deciding.runs import NOT_DERIVED, Run
from recommender.facts.catalogue import CATALOGUE
from recommender.facts.fact import Fact
from recommender.facts.value import FactValue
from recommender.logic.evaluate import Check, Result
from recommender.rulebook.book import Rulebook

COUNTS = {"stops_work": "stops", "rules_out": "bars", "asks_first": "asks", "advises_against": "cautions",
          "supports": "supports"}


def found(value: FactValue, fact: Fact) -> Found:
    """Return what is known of a fact, as data and as people read it."""
    shown = shown_fact(value, fact)
    assumed = True if value.assumed else None
    if value.word is not None:
        return Found(shown, word=value.word, assumed=assumed)
    if value.value is None:
        could_be = tuple(map(str, value.could_be)) or None
        applies_not = None if value.applies else True
        return Found(shown, unknown=value.why_unknown, could_be=could_be, not_applicable=applies_not)
    sampling, beyond = value.sampling or None, value.beyond or None
    return Found(shown, value.value, value.low, value.high, fact.unit, assumed=assumed, sampling=sampling,
                 beyond=beyond, valid_at=fact.valid_at)


class FactsShown(Mapping[str, Found]):
    """Facts by id as people read them, worded when somebody asks: most answers of many are only counted."""

    def __init__(self, facts: Mapping[str, FactValue]) -> None:
        """Keep the facts; ids outside the catalogue are left out."""
        self._facts = facts

    @cached_property
    def _shown(self) -> dict[str, Found]:
        known = sorted(each for each in self._facts if each in CATALOGUE)
        return {each: found(self._facts[each], CATALOGUE[each]) for each in known}

    def __getitem__(self, name: str) -> Found:
        """Return what is known of a fact; raises KeyError where it is not among these."""
        return self._shown[name]

    def __iter__(self) -> Iterator[str]:
        """Yield the ids in order."""
        return iter(self._shown)

    def __len__(self) -> int:
        """Return how many there are."""
        return len(self._shown)


def findings(runs: Iterable[Run], book: Rulebook) -> tuple[Finding, ...]:
    """Return the findings that speak: all that hold or are undecided, and reasons to use an option that fail."""
    return tuple(finding(run, book) for run in runs if run.outcome != "fails" or run.rule.stance == "supports")


def finding(run: Run, book: Rulebook) -> Finding:
    """Return what one run says."""
    rule = run.rule
    return Finding(
        rule.id, rule.title, rule.stance, run.outcome, counts_as(run), sentence(run, book), _checks(run),
        Source(rule.source.kind, str(rule.source)), rule.layer, rule.sealed, rule.cautions, rule.deferrals, run.id,
    )


def counts_as(run: Run) -> str:
    """Return how a finding counts: as its stance when it holds, `cautions` or `open` when undecided, else `nothing`."""
    if run.rule.stance == "asks_first" and run.outcome != "fails":
        return "asks"
    if run.outcome == "holds":
        return COUNTS[run.rule.stance]
    if run.outcome == "fails":
        return "nothing"
    caution = run.rule.stance == "advises_against" or (run.rule.stance == "rules_out" and excused(run))
    return "cautions" if caution else "open"


def sentence(run: Run, book: Rulebook) -> str:
    """Return the rule's own sentence when it holds; otherwise its title and what is open, or what is not met."""
    if run.outcome == "holds":
        return filled(run.rule.because, lambda name: _shown(name, run, book))
    lead = f"{run.rule.title}: not settled," if run.outcome == "undecided" else "Does not apply:"
    return f"{lead} {'; '.join(check_shown(check, book.limits) for check in run.deciding)}."


def _shown(name: str, run: Run, book: Rulebook) -> str:
    if name in CATALOGUE:
        value, at = run.facts.get(name, NOT_DERIVED[name]), CATALOGUE[name].valid_at
        shown = shown_fact(value, CATALOGUE[name])
        return f"{shown} at {at}" if at and value.known else shown
    return book.limits[name].shown if name in book.limits else "{" + name + "}"


def _checks(run: Run) -> tuple[CheckShown, ...]:
    return tuple(_check(check, f"check/{run.rule.id}@{run.subject}{path}") for path, check in _paths(run))


def _check(check: Check, node: str) -> CheckShown:
    fact = check.leaf.fact
    return CheckShown(fact.id, fact.name, check.outcome, found(check.found, fact), wanted(check), check.margin,
                      None if check.margin is None else fact.unit, check.spreads, node)


def _paths(run: Run) -> Iterator[tuple[str, Check]]:
    """Yield the deciding checks of a run with the path each has in the trace."""
    deciding = {id(check) for check in run.deciding}
    return ((path, check) for path, check in _all_paths(run.result, "") if id(check) in deciding)


def _all_paths(result: Result, path: str) -> Iterator[tuple[str, Check]]:
    if isinstance(result, Check):
        yield path, result
        return
    for number, part in enumerate(result.parts, 1):
        yield from _all_paths(part, f"{path}/{number}")
