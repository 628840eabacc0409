"""Every remedy that was not chosen, with the checks that stopped it and by how much."""

from recommender.account.answer_side import chosen
from recommender.account.finding_text import finding_lines, short
from recommender.account.lines import BLANK, Line, bullets, wrapped
from recommender.account.words import OUTCOMES, capital
from recommender.deciding.answer import Advice, Finding, OptionShown, RemedyShown, SideShown

COUNTS = {
    "ruled_out": ("bars",),
    "unsettled": ("open", "asks"),
    "cleared_with_cautions": ("cautions",),
    "not_applicable": ("nothing",),
}


def remedy_lines(side: SideShown) -> list[Line]:
    """Return every remedy but the chosen one with what stopped it; nothing when there are none."""
    others = [each for each in side.remedies if each.id != side.remedy]
    told = [line for each in others for line in _remedy(each)]
    passed = [each for each in side.remedies if each.id == side.remedy]
    other_parts = [line for each in passed for line in _other_parts(each, side)]
    if not told and not other_parts:
        return []
    return [BLANK, *wrapped("What else was considered:", "  "), *other_parts, *told]


def remedy_named(advice: Advice, side: SideShown, remedy: str) -> list[Line]:
    """Return one remedy with every option and finding in full; raises KeyError when the book does not know it."""
    found = {each.id: each for each in side.remedies}[remedy]
    lines = wrapped(f"{found.title}: {OUTCOMES.get(found.outcome, found.outcome)}", "  ")
    if not found.options:
        return [*lines, *wrapped("No part could be used for it here.", "  ")]
    return [*lines, *(line for option in found.options for line in _in_full(advice, option))]


def _in_full(advice: Advice, option: OptionShown) -> list[Line]:
    condition = f", {option.condition}" if option.condition else ""
    return [
        BLANK,
        *wrapped(f"{_part(option)}: {OUTCOMES.get(option.outcome, option.outcome)}{condition}", "  "),
        *(line for each in option.findings for line in finding_lines(each, advice.trace, 4)),
    ]


def _remedy(remedy: RemedyShown) -> list[Line]:
    head = f"{remedy.title}: {OUTCOMES.get(remedy.outcome, remedy.outcome)}"
    if not remedy.options:
        return wrapped(f"{head}; no part could be used for it here", "  * ")
    return [*wrapped(head, "  * "), *(line for option in _best(remedy) for line in _option(option))]


def _best(remedy: RemedyShown) -> list[OptionShown]:
    """Return the options told: each with another reason once, so that five alike parts are told together."""
    told: dict[tuple[str, ...], OptionShown] = {}
    for option in remedy.options:
        told.setdefault((option.outcome, *(each.rule for each in telling(option))), option)
    return list(told.values())


def _other_parts(remedy: RemedyShown, side: SideShown) -> list[Line]:
    taken = chosen(side)
    others = [each for each in remedy.options if taken is None or each.part != taken.part]
    return [line for option in others for line in _option(option)]


def _option(option: OptionShown) -> list[Line]:
    head = f"{_part(option)}, {OUTCOMES.get(option.outcome, option.outcome)}:"
    reasons = [short(each) for each in telling(option)] or ["stands behind in the order of remedies and parts."]
    return [*wrapped(head, "    "), *bullets((capital(each) for each in reasons), 6)]


def telling(option: OptionShown) -> list[Finding]:
    """Return the findings that made the outcome of an option what it is."""
    counted = COUNTS.get(option.outcome, ())
    return [each for each in option.findings if each.counts_as in counted]


def _part(option: OptionShown) -> str:
    return option.part.replace("_", " ")
