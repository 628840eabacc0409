"""The answer in one screen: what may be done to each side, what to fit and make, what to settle, what to mind."""

from collections.abc import Iterable, Sequence

from recommender.account.answer_side import side_lines
from recommender.account.cautions import caution_lines
from recommender.account.information import information
from recommender.account.lines import BLANK, Line, bullets, heading, numbered, section, wrapped
from recommender.account.standard_text import conformity_lines
from recommender.account.stop_riding import notice
from recommender.account.words import (
    CAUSES,
    HOUSE_ACTS,
    SIDES,
    both_sides,
    capital,
    distinct,
    frame_verdict,
    lower,
    readable,
    stop,
)
from recommender.deciding.answer import Advice, CauseShown, Words

DAMAGE = "damage"
STANDING = "standing"
ELSEWHERE = frozenset({DAMAGE, STANDING, "held"})
OF_A_SIDE = ("drive side: ", "non-drive side: ", "both sides: ")


def answer_lines(advice: Advice) -> list[Line]:
    """Return the answer as lines of 80 columns."""
    return [
        *stop_riding_lines(advice),
        *_head(advice),
        *(line for name in advice.sides for line in side_lines(advice, name)),
        *section("TO MEASURE OR SETTLE", question_lines(advice)),
        *section("TO MIND", caution_lines(advice)),
        *section("LEFT TO OTHERS", bullets(_said(each) for each in advice.deferrals)),
        *section("FOR INFORMATION", bullets(information(advice))),
        *section("AGAINST THE STANDARD (which is not the fit)", conformity_lines(advice)),
        *section("WHAT SIGNS, SYMPTOMS AND SIZES ARE CONSISTENT WITH", bullets(_causes(advice.causes))),
        *section("HOUSE RULES IN FORCE", bullets(_house(advice))),
        *_foot(advice),
    ]


def stop_riding_lines(advice: Advice) -> list[Line]:
    """Return the stop-riding notice with its reason, nothing when the advice carries none."""
    stopping = [each for side in advice.sides.values() for each in side.stopped_by if each.counts_as == "stops"]
    because = "; ".join(distinct(lower(each.title) for each in stopping))
    found = [each for each in advice.notices if each.id == DAMAGE]
    return [line for each in found for line in notice(each.text, advice.case.id, because)]


def frame_reasons(advice: Advice) -> list[str]:
    """Return the reasons of the frame's verdict that are not told with its sides, what is not settled in one."""
    own = [each for each in distinct(advice.frame.reasons) if not each.lower().startswith(OF_A_SIDE)]
    unsettled = [each.removesuffix(": not settled.") for each in own if each.endswith(": not settled.")]
    others = [each for each in own if not each.endswith(": not settled.")]
    return [*([f"Not settled: {'; '.join(map(lower, unsettled))}."] if unsettled else []), *others]


def question_lines(advice: Advice, names: Sequence[str] = ("drive", "non_drive")) -> list[Line]:
    """Return what to do about every open question of these sides, what is to be done once told once."""
    sides: dict[str, list[str]] = {}
    settles: dict[str, list[str]] = {}
    for each in advice.questions:
        if each.side is None or each.side in names:
            sides.setdefault(each.do, []).append(each.side or "")
            settles.setdefault(each.do, []).extend(settled_name(subject) for subject in each.would_settle)
    return numbered(
        f"{both_sides(found)}{stop(capital(do))} Settles: {', '.join(distinct(settles[do]))}."
        for do, found in sides.items()
    )


def settled_name(subject: str) -> str:
    """Return what a question would settle: a remedy by its name, else the side or the frame."""
    side, _, remedy = subject.partition("/")
    return readable(remedy.partition("/")[0]) if remedy else f"the {SIDES.get(side, side)}"


def _head(advice: Advice) -> list[Line]:
    case = advice.case
    follows = f" Follows {case.follows}." if case.follows else ""
    reasons = frame_reasons(advice) if advice.frame.verdict != "proceed" else []
    others = distinct(each.text for each in advice.notices if each.id not in ELSEWHERE)
    return [
        *wrapped(f"{stop(f'{case.id}: {case.title}')} Received {case.received}.{follows}"),
        *heading(f"FRAME: {frame_verdict(advice)}"),
        *(line for text in reasons for line in wrapped(text, "  ")),
        *(line for text in others for line in wrapped(text, "  ", weight="heading")),
    ]


def _said(words: Words) -> str:
    return f"{both_sides(words.sides)}{stop(words.text)}"


def _causes(causes: Iterable[CauseShown]) -> list[str]:
    """Return each cause that anything speaks for, told once where both sides say the same."""
    sides: dict[str, list[str]] = {}
    for each in causes:
        if each.speaks_for:
            sides.setdefault(_cause(each), []).append(each.side)
    return [f"{'Both sides' if len(names) > 1 else capital(SIDES[names[0]])}: {text}" for text, names in sides.items()]


def _cause(cause: CauseShown) -> str:
    named = CAUSES.get(cause.cause, readable(cause.cause))
    counted = f"{len(cause.speaks_for)} for, {len(cause.speaks_against)} against, {len(cause.open)} open"
    for_it = "; ".join(lower(each.title) for each in cause.speaks_for)
    return f"consistent with {named} ({counted}): {for_it}."


def _house(advice: Advice) -> list[str]:
    return [
        f"{HOUSE_ACTS.get(each.get('kind', ''), 'changed')} {each.get('id', '')}: "
        f"{' -> '.join(filter(None, (each.get('before'), each.get('after'))))}"
        f"{' (looser)' if each.get('looser') else ''}; {each.get('reason', '')} "
        f"({each.get('by', '')}, {each.get('dated', '')}, review by {each.get('review_by') or 'no date'})"
        for each in advice.house_changes
    ]


def _foot(advice: Advice) -> list[Line]:
    edited = "; the shipped rules were edited here" if advice.rulebook.edited else ""
    standing = " ".join(distinct(stop(each.text) for each in advice.notices if each.id == STANDING))
    judged = f"Judged by {advice.engine}, rule book {advice.rulebook.fingerprint[:12]}{edited}."
    return [BLANK, *wrapped(f"Brackets hold 95 % intervals. {standing} {judged}")]
