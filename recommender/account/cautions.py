"""What to mind: the cautions of the book, and the numbers that lie too close to a limit to be called."""

import re
from collections.abc import Iterator

from recommender.account.answer_side import chosen
from recommender.account.limit_words import in_words
from recommender.account.lines import Line, bullets, wrapped
from recommender.account.numbers import with_interval
from recommender.account.words import SIDES, both_sides, distinct, listed, stop
from recommender.deciding.answer import Advice, CheckShown, Finding, Words
from recommender.deciding.trace import Trace

OPERATOR = re.compile(r"^(at least|at most|above|below|between) ")
Sides = dict[str, list[CheckShown]]


def caution_lines(advice: Advice) -> list[Line]:
    """Return the cautions in the words of the book, then what nobody can call, each number once with its limits."""
    left_open = [each for each in _open(advice) if each[1].rule in {known.id for known in advice.cautions}]
    rules = {finding.rule for _, finding in left_open}
    close, unknown = _sorted(left_open)
    return [
        *bullets(_said(each) for each in advice.cautions if each.id not in rules),
        *(wrapped("- Too close to a limit to call:", "  ") if close else []),
        *bullets((_close(name, sides, advice.trace) for name, sides in close.items()), 4, "*"),
        *bullets(f"Not known: {listed(distinct(names))} ({why})." for why, names in unknown.items()),
    ]


def _said(words: Words) -> str:
    return f"{both_sides(words.sides)}{stop(words.text)}"


def _open(advice: Advice) -> Iterator[tuple[str, Finding]]:
    """Yield every finding that counts as a caution without having been decided, with the side it is about."""
    for each in advice.frame.findings:
        if (each.outcome, each.counts_as) == ("undecided", "cautions"):
            yield "", each
    for name, side in advice.sides.items():
        option = chosen(side)
        for each in (*side.findings, *(option.findings if option is not None else ())):
            if (each.outcome, each.counts_as) == ("undecided", "cautions"):
                yield name, each


def _sorted(left_open: list[tuple[str, Finding]]) -> tuple[dict[str, Sides], dict[str, list[str]]]:
    """Return the numbers that straddle a limit, by name and side, and the names of what is unknown, by reason."""
    close: dict[str, Sides] = {}
    unknown: dict[str, list[str]] = {}
    for side, finding in left_open:
        for check in finding.checks:
            if check.found.unknown is None:
                close.setdefault(check.name, {}).setdefault(side, []).append(check)
            else:
                unknown.setdefault(check.found.unknown, []).append(check.name)
    return close, unknown


def _close(name: str, sides: Sides, trace: Trace) -> str:
    values = {side: with_interval(checks[0].found) for side, checks in sides.items()}
    told = [f"{SIDES[side].removesuffix(' side')} {value}" if side else value for side, value in values.items()]
    if len(set(values.values())) == 1 and len(values) != 1:
        told = [next(iter(values.values()))]
    told_of = (check for checks in sides.values() for check in checks)
    limits = distinct(in_words(OPERATOR.sub("", check.wanted), check, trace) for check in told_of)
    return f"{name}: {'; '.join(told)}; limit{'s' if len(limits) > 1 else ''} {listed(limits)}"
