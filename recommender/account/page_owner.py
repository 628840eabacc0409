"""The owner's half page: what not to ride and until when, what will be done, what is not known."""

from typing import NamedTuple

from recommender.account.page_matter import Matter, open_findings, side_title
from recommender.account.page_told import Told
from recommender.account.words import SIDES, both_sides, capital, readable, stop
from recommender.deciding.answer import Advice, CheckShown, SideShown

RIDING = ("damage", "size_or_form", "measure_again", "proceed")
MOST_QUESTIONS = 4


class Work(NamedTuple):
    """What is done to a side: its verdict, the remedy behind it, and the remedy's title."""

    side: str
    verdict: str
    remedy: str
    title: str


class Owner(NamedTuple):
    """What the owner reads; `riding` names the case the sentences about riding stand for."""

    damage: bool
    riding: str
    notices: list[Told]
    places: list[Told]
    work: list[Work]
    before: list[Told]
    unknown: list[Told]
    more: bool
    close: bool
    unseen: list[Told]
    assumed: bool
    others: list[Told]


def owner(matter: Matter) -> Owner:
    """Return the owner's answer of an advice."""
    advice = matter.advice
    questions = _questions(advice)
    return Owner(
        advice.frame.damage,
        _riding(advice),
        matter.notices(*RIDING),
        _places(matter),
        [_work(name, side) for name, side, _ in matter.sides()],
        [Told(text, side.node) for _, side, _ in matter.sides() for text in _before(side)],
        questions[:MOST_QUESTIONS],
        len(questions) > MOST_QUESTIONS,
        any(check.found.unknown is None for check in _open_checks(advice)),
        _unseen(advice),
        any(_rests_on_assumption(side) for _, side, _ in matter.sides()),
        [Told(f"{both_sides(each.sides)}{stop(each.text)}", f"words:deferrals/{each.id}") for each in advice.deferrals],
    )


def _open_checks(advice: Advice) -> list[CheckShown]:
    return [check for _, finding in open_findings(advice) for check in finding.checks]


def _unseen(advice: Advice) -> list[Told]:
    """Return by name what is not known and counts as a caution, each once."""
    found = {each.fact: each.name for each in _open_checks(advice) if each.found.unknown is not None}
    return [Told(name, f"fact:{fact}") for fact, name in found.items()]


def _rests_on_assumption(side: SideShown) -> bool:
    found = side.facts.get("evidence.rests_on_assumption")
    return found is not None and found.word is True


def _riding(advice: Advice) -> str:
    if advice.frame.verdict == "refuse":
        return "damage" if advice.frame.damage else "size_or_form"
    waits = any(side.make is not None and not side.make.released for side in advice.sides.values())
    return "waits" if advice.frame.verdict == "proceed" and waits else advice.frame.verdict


def _places(matter: Matter) -> list[Told]:
    """Return every sign of damage as it was written down: what, where, on which side."""
    return [
        Told(", ".join(filter(None, (readable(each.sign), readable(each.where), SIDES.get(each.side or "")))),
             f"case:damage.signs.{count}")
        for count, each in enumerate(matter.case.damage.signs)
    ]  # fmt: skip


def _work(name: str, side: SideShown) -> Work:
    titles = {each.id: each.title for each in side.remedies}
    title = titles.get(side.remedy or "", readable(side.verdict))
    return Work(side_title(name), side.verdict, side.remedy or "", stop(title))


def _before(side: SideShown) -> list[str]:
    if side.make is None or side.verdict == "held":
        return []
    return [stop(capital(readable(each))) for each in side.make.before_work]


def _questions(advice: Advice) -> list[Told]:
    sides: dict[str, list[str]] = {}
    for each in advice.questions:
        sides.setdefault(each.do, []).append(each.side or "")
    return [Told(f"{both_sides(found)}{stop(capital(do))}", f"words:questions/{do}") for do, found in sides.items()]
