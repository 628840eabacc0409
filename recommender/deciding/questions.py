"""What is open, what to do about it, and what it would settle."""

from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from recommender.deciding.answer import Question
from recommender.deciding.contest import of_stance
from recommender.deciding.decide import Decision
from recommender.deciding.narrowing import narrow
from recommender.deciding.runs import Run
from recommender.deciding.settling import to_settle
from recommender.deciding.sides import SideDecision
from recommender.deriving.derived import SIDES, SideName
from recommender.facts.catalogue import CATALOGUE
from recommender.rulebook.book import Rulebook

NO_PART = "Name a shell standard the rule book knows, read the bore, and measure a part that belongs to it."


class Asked(NamedTuple):
    """A question, and the half-width that would settle it where its number is known, but not closely enough."""

    question: Question
    needed: float | None = None


def questions_of(decision: Decision, book: Rulebook) -> tuple[Question, ...]:
    """Return every open question that bears on the verdict, each once, what is asked first first.

    Raises RuntimeError when something must be measured again and nothing to do can be named; no book can cause it.
    """
    found = _merged(_nearest([*_about_frame(decision, book), *_about_sides(decision, book)]))
    _something_to_do(decision, found)
    return found


def actions_of(run: Run, book: Rulebook) -> str:
    """Return what a rule says to do, in the words of the book."""
    known = book.wording.get("actions", {})
    return " ".join(known.get(each, each) for each in run.rule.do)


def _about_frame(decision: Decision, book: Rulebook) -> Iterator[Asked]:
    if decision.frame.verdict == "refuse":
        return
    asking = [run for run in of_stance(decision.runs.frame, "asks_first") if run.outcome != "fails"]
    for run in (*asking, *decision.frame.because):
        side = run.subject if run.subject in SIDES else None
        yield from _of_run(run, book, side, run.subject)
    if decision.frame.choose:
        yield Asked(Question("part.kind", CATALOGUE["part.kind"].name, None, decision.frame.choose, ("frame",)))


def _about_sides(decision: Decision, book: Rulebook) -> Iterator[Asked]:
    for name, side in decision.sides.items():
        yield from _about_side(name, side, book)


def _about_side(name: SideName, side: SideDecision, book: Rulebook) -> Iterator[Asked]:
    for run in side.because if side.verdict == "measure_again" else ():
        if run.subject == name:
            yield from _of_run(run, book, name, name)
    for remedy in side.waiting:
        for option in remedy.unsettled:
            for run in option.open:
                yield from _of_run(run, book, name, f"{name}/{remedy.remedy.id}")
    if side.verdict == "measure_again" and not side.because and not side.waiting:
        yield Asked(Question("frame.standard", CATALOGUE["frame.standard"].name, name, NO_PART, (name,)))


def _of_run(run: Run, book: Rulebook, side: str | None, settles: str) -> Iterator[Asked]:
    for each in to_settle(run, actions_of(run, book)):
        where = None if each.fact.scope == "frame" or side not in SIDES else side
        asked = Question(each.fact.id, each.fact.name, where, each.do, (settles,))
        if each.close is None:
            yield Asked(asked)
        else:
            do = narrow(each.close, run.facts, book.limits)
            yield Asked(replace(asked, do=do), abs(each.close.margin or 0.0))


def _nearest(asked: list[Asked]) -> list[Question]:
    """Return the questions; of those that ask for a closer number, the one that asks most of it, for all of them."""
    close: dict[tuple[str | None, str | None], list[Asked]] = {}
    for each in asked:
        if each.needed is not None:
            close.setdefault((each.question.fact, each.question.side), []).append(each)
    hardest = {key: min(group, key=lambda one: one.needed or 0.0).question.do for key, group in close.items()}
    return [
        each.question if each.needed is None
        else replace(each.question, do=hardest[each.question.fact, each.question.side])
        for each in asked
    ]  # fmt: skip


def _merged(questions: list[Question]) -> tuple[Question, ...]:
    """Return each question once; where a rule says what to do about a fact, the catalogue need not say it as well."""
    told = {(each.fact, each.side): each.do for each in reversed(questions) if each.do != _usual(each)}
    kept: dict[tuple[str | None, str | None, str], Question] = {}
    for asked in questions:
        do = told.get((asked.fact, asked.side), asked.do) if asked.do == _usual(asked) else asked.do
        do = _sentence(do)
        each, key = replace(asked, do=do), (asked.fact, asked.side, do)
        settled = kept[key].would_settle if key in kept else ()
        kept[key] = replace(each, would_settle=tuple(dict.fromkeys((*settled, *each.would_settle))))
    return tuple(kept.values())


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:].removesuffix('.')}."


def _usual(question: Question) -> str:
    return CATALOGUE[question.fact].settle if question.fact else ""


def _something_to_do(decision: Decision, questions: tuple[Question, ...]) -> None:
    if decision.frame.verdict == "measure_again" and not questions:
        raise RuntimeError("the frame is to be measured again, but nothing to do is named")
    for name, side in decision.sides.items():
        if side.verdict == "measure_again" and decision.frame.verdict != "refuse" and not any(
            settled.split("/")[0] in ("frame", name) for each in questions for settled in each.would_settle
        ):
            raise RuntimeError(f"the {name} side is to be measured again, but nothing to do is named")
