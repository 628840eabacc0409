"""The answer in one screen: what may be done to each side, what to fit and make, what to settle, what to mind."""

from collections.abc import Iterable, Sequence

from recommender.account.answer_side import side_lines
from recommender.account.lines import BLANK, Line, bullets, heading, numbered, section, wrapped
from recommender.account.stop_riding import notice
from recommender.account.words import FRAME, SIDES, capital, lower, stop
from recommender.deciding.answer import Advice, CauseShown, Question, Words

DAMAGE = "damage"
STANDING = "standing"
ELSEWHERE = frozenset({DAMAGE, STANDING, "held", "not_released"})


def answer_lines(advice: Advice) -> list[Line]:
    """Return the answer as lines of 80 columns."""
    return [
        *stop_riding_lines(advice),
        *_head(advice),
        *(line for name in advice.sides for line in side_lines(advice, name)),
        *section("TO MEASURE OR SETTLE", numbered(question_text(each) for each in advice.questions)),
        *section("TO MIND", bullets(_said(each) for each in advice.cautions)),
        *section("LEFT TO OTHERS", bullets(_said(each) for each in advice.deferrals)),
        *section("HOW THE BORES MAY HAVE BECOME SO", bullets(_causes(advice.causes))),
        *section("HOUSE RULES IN FORCE", bullets(_house(advice))),
        *_foot(advice),
    ]


def stop_riding_lines(advice: Advice) -> list[Line]:
    """Return the stop-riding notice with its reason, nothing when the advice carries none."""
    because = " ".join(advice.frame.reasons[:1])
    found = [each for each in advice.notices if each.id == DAMAGE]
    return [line for each in found for line in notice(each.text, advice.case.id, because)]


def _head(advice: Advice) -> list[Line]:
    case = advice.case
    follows = f" Follows {case.follows}." if case.follows else ""
    verdict = FRAME.get(advice.frame.verdict, advice.frame.verdict)
    others = [each.text for each in advice.notices if each.id not in ELSEWHERE]
    return [
        *wrapped(f"{stop(f'{case.id}: {case.title}')} Received {case.received}.{follows}"),
        *heading(f"FRAME: {verdict}"),
        *bullets(distinct(advice.frame.reasons)),
        *(line for text in distinct(others) for line in wrapped(text, "  ", weight="heading")),
    ]


def question_text(question: Question) -> str:
    """Return what to do about an open question, on which side, and what it would settle."""
    side = f"{capital(SIDES[question.side])}: " if question.side else ""
    settles = ", ".join(distinct(_settled(each) for each in question.would_settle))
    return f"{side}{stop(capital(question.do))}" + (f" Settles: {settles}." if settles else "")


def _settled(subject: str) -> str:
    side, _, remedy = subject.partition("/")
    named = SIDES.get(side, side)
    return f"{remedy.partition('/')[0].replace('_', ' ')}, {named}" if remedy else named


def _said(words: Words) -> str:
    return f"{where(words.sides)}{stop(words.text)}"


def where(sides: Sequence[str]) -> str:
    """Return the side a sentence is for, in front of it; nothing when it is for both or for the frame."""
    return f"{capital(SIDES[sides[0]])}: " if len(sides) == 1 else ""


def _causes(causes: Iterable[CauseShown]) -> list[str]:
    return [_cause(each) for each in causes if each.speaks_for or each.speaks_against]


def _cause(cause: CauseShown) -> str:
    open_too = f", {len(cause.open)} open" if cause.open else ""
    for_it = "; ".join(lower(each.title) for each in cause.speaks_for)
    named = cause.cause.replace("_", " ")
    counted = f"{len(cause.speaks_for)} for, {len(cause.speaks_against)} against{open_too}"
    if not cause.speaks_for:
        return f"{capital(SIDES[cause.side])}: not consistent with {named} ({counted})."
    return f"{capital(SIDES[cause.side])}: consistent with {named} ({counted}): {for_it}."


def _house(advice: Advice) -> list[str]:
    return [
        f"{each.get('kind', 'change')} {each.get('id', '')}: {each.get('before') or 'nothing'} -> "
        f"{each.get('after') or 'nothing'}{' (looser)' if each.get('looser') else ''}; {each.get('reason', '')} "
        f"({each.get('by', '')}, {each.get('dated', '')}, review by {each.get('review_by') or 'no date'})"
        for each in advice.house_changes
    ]


def _foot(advice: Advice) -> list[Line]:
    edited = "; the shipped rules were edited here" if advice.rulebook.edited else ""
    return [
        BLANK,
        *(line for each in advice.notices if each.id == STANDING for line in wrapped(each.text)),
        *wrapped(f"Judged by {advice.engine}, rule book {advice.rulebook.fingerprint[:12]}{edited}."),
    ]


def distinct(texts: Iterable[str]) -> list[str]:
    """Return the texts, each once, in their order."""
    return list(dict.fromkeys(texts))
