"""Cautions, deferrals and notices: which sentences of the book this decision calls for, for whom, and why."""

from collections.abc import Iterable, Iterator

from recommender.deciding.answer import Words
from recommender.deciding.contest import cautioning, holding
from recommender.deciding.decide import Decision
from recommender.deciding.findings import counts_as, sentence
from recommender.deciding.options import RemedyResult
from recommender.deciding.runs import Run
from recommender.deciding.sides import SideDecision
from recommender.deriving.derived import SIDES, SideName
from recommender.rulebook.book import Rulebook


def cautions(decision: Decision, book: Rulebook) -> tuple[Words, ...]:
    """Return every caution of this decision, each once: on frame, sides, chosen options and remedies passed over."""
    made = [words for run in _speaking(decision) if _worth_minding(run, decision) for words in _cautions(run, book)]
    passed = [_passed(each, name) for name, side in decision.sides.items() if side.chosen for each in side.passed]
    return merged([*made, *passed])


def deferrals(decision: Decision, book: Rulebook) -> tuple[Words, ...]:
    """Return everything this decision leaves to others, each once."""
    known = book.wording.get("deferrals", {})
    return merged(
        Words(each, known.get(each, each), _sides(run), (run.rule.id,))
        for run in _speaking(decision) for each in run.rule.deferrals
    )


def merged(words: Iterable[Words]) -> tuple[Words, ...]:
    """Return the words each once, with every side and rule that calls for them; the frame counts for both sides."""
    kept: dict[tuple[str, str], Words] = {}
    for each in words:
        before = kept.get((each.id, each.text))
        sides = each.sides if before is None else _both(before.sides, each.sides)
        because = each.because if before is None else tuple(dict.fromkeys((*before.because, *each.because)))
        kept[(each.id, each.text)] = Words(each.id, each.text, sides, because)
    return tuple(kept.values())


def _both(one: tuple[SideName, ...], two: tuple[SideName, ...]) -> tuple[SideName, ...]:
    return tuple(side for side in SIDES if side in {*one, *two}) if one and two else ()


def _speaking(decision: Decision) -> Iterator[Run]:
    """Yield the runs that speak on the outcome: on the frame, the sides, what stopped them and what was chosen."""
    yield from _general(decision.runs.frame)
    for name, side in decision.sides.items():
        yield from _general(decision.runs.sides[name].general)
        yield from _of_choice(side)


def _worth_minding(run: Run, decision: Decision) -> bool:
    """Return whether a caution about a run has a use: none on a side where nothing is pressed and nobody rides."""
    return not any(decision.sides[side].verdict == "refuse" for side in _sides(run))


def _general(runs: Iterable[Run]) -> Iterator[Run]:
    return (run for run in runs if run.outcome == "holds" or counts_as(run) == "cautions")


def _of_choice(side: SideDecision) -> Iterator[Run]:
    if side.chosen is not None:
        yield from holding(side.chosen.runs, "supports")
        yield from cautioning(side.chosen.runs)
    elif side.verdict == "refuse" and not side.damage:
        yield from (run for run in side.because if run.outcome == "holds")


def _cautions(run: Run, book: Rulebook) -> Iterator[Words]:
    known = book.wording.get("cautions", {})
    for each in () if _not_looked_for(run) else run.rule.cautions:
        yield Words(each, known.get(each, each), _sides(run), (run.rule.id,))
    if counts_as(run) != "cautions":
        return
    if run.outcome == "undecided":
        yield Words(run.rule.id, sentence(run, book), _sides(run), (run.rule.id,))
    elif not run.rule.cautions:
        yield Words(run.rule.id, f"{run.rule.title}. {sentence(run, book)}", _sides(run), (run.rule.id,))


def _not_looked_for(run: Run) -> bool:
    """Return whether a run is open only because nobody looked: what to do about a sign would read as if it was seen."""
    return run.outcome == "undecided" and all(
        check.leaf.fact.settled_by == "inspection" and not check.found.known for check in run.deciding
    )


def _passed(result: RemedyResult, side: SideName) -> Words:
    rules = tuple(dict.fromkeys(run.rule.id for each in result.unsettled for run in each.open))
    text = f"{result.remedy.title} was passed over: a question behind it stays open that nothing here can settle."
    return Words(f"passed-over.{result.remedy.id}", text, (side,), rules)


def _sides(run: Run) -> tuple[SideName, ...]:
    return tuple(side for side in SIDES if run.subject.split("/")[0] == side)
