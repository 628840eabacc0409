"""Why it was decided so: from the verdict over the findings and the remedies that lost, down to the readings."""

from recommender.account.answer_side import chosen, side_of
from recommender.account.answer_text import frame_reasons, question_lines, stop_riding_lines
from recommender.account.finding_text import finding_lines, short
from recommender.account.kept_text import kept_lines
from recommender.account.lines import BLANK, Line, bullets, heading, section, wrapped
from recommender.account.nearest_text import Nearest
from recommender.account.stoppers import Stopper, stoppers
from recommender.account.walk_text import walk_lines
from recommender.account.why_remedies import Changes, remedy_lines, remedy_named
from recommender.account.words import (
    CAUSES,
    SIDES,
    capital,
    distinct,
    frame_verdict,
    lower,
    readable,
    side_verdict,
    stop,
)
from recommender.deciding.answer import Advice, CauseShown, SideShown

MOST_IN_FULL = 4
NO_WAY_ROUND = "No remedy is weighed against damage: it stops the work whatever the bores measure."


def why_lines(
    advice: Advice, side: str | None = None, remedy: str | None = None, nearest: Nearest | None = None,
    depth: int | None = None,
) -> list[Line]:
    """Return the explanation as lines of 80 columns, for both sides or one, for all remedies or one.

    `nearest` says what would clear each remedy that lost, `depth` how many steps to walk down from the deciding
    number. Raises KeyError when the side or the remedy is not part of the advice.
    """
    names = tuple(map(str, advice.sides)) if side is None else (side,)
    changes = {name: {of: texts for (each, of), texts in (nearest or {}).items() if each == name} for name in names}
    return [
        *stop_riding_lines(advice),
        *wrapped(f"Why it was decided so: {stop(f'{advice.case.id}, {advice.case.title}')}"),
        *(_frame(advice) if remedy is None else []),
        *(line for name in names for line in _side(advice, name, remedy, changes[name])),
        *section("OPEN QUESTIONS", question_lines(advice, names)),
        *(line for name in names for line in walk_lines(advice, name, remedy, depth)),
    ]


def _frame(advice: Advice) -> list[Line]:
    sides = [f"{capital(SIDES[name])}: {side_verdict(advice, name)}." for name in advice.sides]
    told = {each.rule for side in advice.sides.values() for each in side.stopped_by}
    asking = [each for each in advice.frame.findings if each.counts_as in ("stops", "asks") and each.rule not in told]
    return [
        *heading(f"FRAME: {frame_verdict(advice)}"),
        *(line for text in frame_reasons(advice) for line in wrapped(text, "  ")),
        *bullets([*sides, *map(short, asking)]),
    ]


def _side(advice: Advice, name: str, remedy: str | None, changes: Changes) -> list[Line]:
    side = side_of(advice, name)
    head = heading(f"{SIDES[name].upper()}: {side_verdict(advice, name)}")
    if remedy is not None:
        return [*head, *remedy_named(advice, side, remedy, changes)]
    reason = wrapped(stop(side.reason), "  ")
    return [*head, *reason, *_deciding(advice, side), *_others(advice, side, changes), *_causes(advice, name)]


def _others(advice: Advice, side: SideShown, changes: Changes) -> list[Line]:
    """Return what else was considered; nothing is held up against damage, so that no list reads like a way round it."""
    if advice.frame.damage and side.verdict == "refuse":
        return [BLANK, *wrapped(NO_WAY_ROUND, "  ")]
    return remedy_lines(side, changes)


def _deciding(advice: Advice, side: SideShown) -> list[Line]:
    if chosen(side) is not None:
        return kept_lines(advice, side)
    found = stoppers(side)
    full = [line for each in found[:MOST_IN_FULL] for line in _stopper(advice, each)]
    rest = bullets(short(each.finding) for each in found[MOST_IN_FULL:])
    return [*full, *([BLANK, *rest] if rest else [])]


def _stopper(advice: Advice, each: Stopper) -> list[Line]:
    remedies = "; ".join(map(lower, each.remedies))
    return [BLANK, *finding_lines(each.finding, advice.trace, extra=remedies)]


def _causes(advice: Advice, name: str) -> list[Line]:
    spoken = [each for each in advice.causes if each.side == name and (each.speaks_for or each.speaks_against)]
    lines = [line for each in spoken for line in _cause(each)]
    return [BLANK, *wrapped("What signs, symptoms and sizes are consistent with:", "  "), *lines] if lines else []


def _cause(cause: CauseShown) -> list[Line]:
    open_titles = distinct(lower(each.title) for each in cause.open)
    return [
        *wrapped(f"{capital(CAUSES.get(cause.cause, readable(cause.cause)))}", "  * "),
        *bullets((f"for: {each.text}" for each in cause.speaks_for), 4),
        *bullets((f"against: {each.text}" for each in cause.speaks_against), 4),
        *bullets([f"open: {'; '.join(open_titles)}"] if open_titles else [], 4),
    ]
