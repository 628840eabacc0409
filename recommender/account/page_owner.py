"""The owner's half page: what not to ride and until when, what will be done, what is not known."""

from collections.abc import Iterable
from typing import NamedTuple

from recommender.account.page_language import Sentences
from recommender.account.page_matter import Matter, open_findings
from recommender.account.page_told import Told
from recommender.account.words import distinct, readable, stop
from recommender.deciding.answer import Advice, CheckShown, Question, SideShown, Words
from recommender.deciding.before_work import CONSENT_FIRST, PART_FIRST, WARRANTY_FIRST
from recommender.deciding.crack_lock import REASON as CRACK
from recommender.facts.catalogue import CATALOGUE

RIDING = ("damage", "size_or_form", "measure_again", "proceed")
MOST_QUESTIONS = 4
FIRST = {"part": PART_FIRST, "consent": CONSENT_FIRST, "warranty": WARRANTY_FIRST}


class Work(NamedTuple):
    """What is done to a side: its title, its verdict, and the remedy in plain words."""

    side: str
    verdict: str
    plain: str


class Owner(NamedTuple):
    """What the owner reads; `riding` names the case the sentences about riding stand for."""

    damage: bool
    riding: str
    verdict: str
    notices: list[Told]
    places: str
    work: list[Work]
    before: list[Told]
    unknown: list[Told]
    more: bool
    close: bool
    unseen: str
    assumed: bool
    others: list[Told]


def owner(matter: Matter, say: Sentences) -> Owner:
    """Return the owner's answer of an advice, in the language of the sentences."""
    advice = matter.advice
    questions, riding = _questions(advice, say), _riding(advice)
    return Owner(
        advice.frame.damage,
        riding,
        say.plain(f"verdict.{'refuse' if advice.frame.verdict == 'refuse' else riding}"),
        [_said(each, "notices", say) for each in advice.notices if each.id in RIDING],
        "; ".join(_places(matter, say)),
        [Work(say.plain(f"side.{name}"), side.verdict, _plain(side, say)) for name, side, _ in matter.sides()],
        [Told(text, side.node) for _, side, _ in matter.sides() for text in _before(side, say)],
        questions[:MOST_QUESTIONS],
        len(questions) > MOST_QUESTIONS,
        any(check.found.unknown is None for check in _open_checks(advice)),
        "; ".join(_unseen(advice, say)),
        any(_rests_on_assumption(side) for _, side, _ in matter.sides()),
        [_said(each, "deferrals", say) for each in advice.deferrals],
    )


def _said(words: Words, kind: str, say: Sentences) -> Told:
    text = stop(say.said(kind, words.id, words.text))
    if text != stop(words.text) and words.text.startswith(CRACK):
        text = f"{say.plain('notice.crack')} {text}"
    return Told(f"{_for_side(words.sides, say)}{text}", f"words:{kind}/{words.id}")


def _for_side(sides: Iterable[str], say: Sentences) -> str:
    """Return the side a sentence is for, in front of it; nothing when it is for both or for the frame."""
    named = distinct(each for each in sides)
    return f"{say.plain(f'side.{named[0]}')}: " if len(named) == 1 and named[0] else ""


def _open_checks(advice: Advice) -> list[CheckShown]:
    return [check for _, finding in open_findings(advice) for check in finding.checks]


def _unseen(advice: Advice, say: Sentences) -> list[str]:
    """Return by name what is not known and counts as a caution, each once; what no bench can measure comes last."""
    facts = distinct(each.fact for each in _open_checks(advice) if each.found.unknown is not None)
    named = [say.plain(f"name.{each}") for each in facts if f"name.{each}" in say]
    rest = [say.plain("name.other")] if len(named) < len(facts) else []
    return distinct([*named, *rest])


def _rests_on_assumption(side: SideShown) -> bool:
    found = side.facts.get("evidence.rests_on_assumption")
    return found is not None and found.word is True


def _riding(advice: Advice) -> str:
    if advice.frame.verdict == "refuse":
        return "damage" if advice.frame.damage else "size_or_form"
    waits = any(side.make is not None and not side.make.released for side in advice.sides.values())
    return "waits" if advice.frame.verdict == "proceed" and waits else advice.frame.verdict


def _places(matter: Matter, say: Sentences) -> list[str]:
    """Return every sign of damage as it was written down: what, where, on which side."""
    return [
        ", ".join(filter(None, (
            _word("sign", each.sign, say), _word("place", each.where, say),
            say.plain(f"on.{each.side}") if each.side else "",
        )))
        for each in matter.case.damage.signs
    ]  # fmt: skip


def _word(kind: str, word: str | None, say: Sentences) -> str:
    if not word:
        return ""
    return say.plain(f"{kind}.{word}") if f"{kind}.{word}" in say else readable(word)


def _plain(side: SideShown, say: Sentences) -> str:
    """Return what is done in plain words; a remedy of a house's own by its title."""
    titles = {each.id: each.title for each in side.remedies}
    name = f"work.{side.remedy}"
    return say.plain(name) if name in say else stop(titles.get(side.remedy or "", readable(side.verdict)))


def _before(side: SideShown, say: Sentences) -> list[str]:
    if side.make is None or side.verdict == "held":
        return []
    return [_first(each, say) for each in side.make.before_work]


def _first(text: str, say: Sentences) -> str:
    kind = next((kind for kind, begins in FIRST.items() if text.startswith(begins)), None)
    return stop(text) if kind is None else say.plain(f"first.{kind}")


def _questions(advice: Advice, say: Sentences) -> list[Told]:
    sides: dict[str, list[str]] = {}
    for each in advice.questions:
        sides.setdefault(_ask(each, say), []).append(each.side or "")
    return [Told(f"{_for_side(found, say)}{text}", "advice:questions") for text, found in sides.items()]


def _ask(question: Question, say: Sentences) -> str:
    known = CATALOGUE.get(question.fact or "")
    named = (f"ask.{question.fact}", f"ask.{known.settled_by}") if known is not None else ()
    return say.first(*named, "ask.other")
