"""Why it was decided so: from the verdict over the findings and the remedies that lost, down to the readings."""

from collections.abc import Sequence

from recommender.account.answer_side import chosen, side_of
from recommender.account.answer_text import distinct, question_text, stop_riding_lines
from recommender.account.finding_text import finding_lines, short
from recommender.account.lines import BLANK, Line, bullets, heading, numbered, wrapped
from recommender.account.walk_text import walk_lines
from recommender.account.why_remedies import remedy_lines, remedy_named
from recommender.account.words import FRAME, SIDES, capital, side_verdict, stop
from recommender.deciding.answer import Advice, CauseShown, Finding, SideShown

MOST_IN_FULL = 3


def why_lines(advice: Advice, side: str | None = None, remedy: str | None = None) -> list[Line]:
    """Return the explanation as lines of 80 columns, for both sides or one, for all remedies or one.

    Raises KeyError when the side or the remedy is not part of the advice.
    """
    names = tuple(advice.sides) if side is None else (side,)
    told = [line for name in names for line in _side(advice, name, remedy)]
    walks = [line for name in names for line in walk_lines(advice, name, remedy)]
    frame = _frame(advice) if remedy is None else []
    return [*stop_riding_lines(advice), *_head(advice), *frame, *told, *_questions(advice, names), *walks]


def _head(advice: Advice) -> list[Line]:
    return wrapped(f"Why it was decided so: {stop(f'{advice.case.id}, {advice.case.title}')}")


def _frame(advice: Advice) -> list[Line]:
    shown = [each for each in advice.frame.findings if each.counts_as in ("stops", "asks", "open")]
    told = {each.rule for side in advice.sides.values() for each in side.stopped_by}
    return [
        *heading(f"FRAME: {FRAME.get(advice.frame.verdict, advice.frame.verdict)}"),
        *bullets(distinct(advice.frame.reasons)),
        *bullets(short(each) for each in shown if each.rule not in told),
    ]


def _side(advice: Advice, name: str, remedy: str | None) -> list[Line]:
    side = side_of(advice, name)
    if remedy is not None:
        return [*heading(f"{SIDES[name].upper()}: {side_verdict(advice, name)}"), *remedy_named(advice, side, remedy)]
    return [
        *heading(f"{SIDES[name].upper()}: {side_verdict(advice, name)}"),
        *wrapped(stop(side.reason), "  "),
        *_deciding(advice, side),
        *remedy_lines(side),
        *_causes(advice, name),
    ]


def deciding_findings(side: SideShown) -> list[Finding]:
    """Return the findings behind the verdict of a side: what stopped it, else what speaks for the chosen option."""
    option = chosen(side)
    found = side.stopped_by or (option.findings if option is not None else ())
    return list({(each.rule, each.text): each for each in found}.values())


def _deciding(advice: Advice, side: SideShown) -> list[Line]:
    found = deciding_findings(side)
    full = [line for each in found[:MOST_IN_FULL] for line in [BLANK, *finding_lines(each, advice.trace)]]
    rest = bullets(short(each) for each in found[MOST_IN_FULL:])
    return [*full, *([BLANK, *rest] if rest else [])]


def _causes(advice: Advice, name: str) -> list[Line]:
    spoken = [each for each in advice.causes if each.side == name and (each.speaks_for or each.speaks_against)]
    if not spoken:
        return []
    lines = [line for each in spoken for line in _cause(each)]
    return [BLANK, *wrapped("How the bore may have become so:", "  "), *lines]


def _cause(cause: CauseShown) -> list[Line]:
    return [
        *wrapped(capital(cause.cause.replace("_", " ")), "  "),
        *bullets((f"for: {each.text}" for each in cause.speaks_for), 4, "+"),
        *bullets((f"against: {each.text}" for each in cause.speaks_against), 4),
        *bullets((f"open: {each.title}" for each in cause.open), 4, "?"),
    ]


def _questions(advice: Advice, names: Sequence[str]) -> list[Line]:
    asked = [each for each in advice.questions if each.side is None or each.side in names]
    if not asked:
        return []
    return [*heading("OPEN QUESTIONS"), *numbered(question_text(each) for each in asked)]
