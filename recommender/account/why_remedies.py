"""Every remedy that was not chosen, with the checks that stopped it and by how much."""

from collections.abc import Mapping, Sequence

from recommender.account.answer_side import chosen
from recommender.account.finding_text import finding_lines, short
from recommender.account.lines import BLANK, Line, bullets, wrapped
from recommender.account.nearest_text import NOTE
from recommender.account.stoppers import telling
from recommender.account.words import OUTCOMES, readable
from recommender.deciding.answer import Advice, OptionShown, RemedyShown, SideShown

Changes = Mapping[str, Sequence[str]]
CLEARED = ("cleared", "cleared_with_cautions")
AFTER = "it comes after the chosen one in the order of the book"
BY_ITSELF = "that is by itself, before what has to be settled first"


def remedy_lines(side: SideShown, changes: Changes) -> list[Line]:
    """Return every remedy but the chosen one with what stopped it, and the other parts of the chosen one.

    `changes` says by remedy what would clear it.
    """
    told = [line for each in side.remedies for line in (*_remedy(each, side), *_nearest(each.id, changes, 4))]
    note = [BLANK, *wrapped(NOTE, "  ")] if changes else []
    return [BLANK, *wrapped("What else was considered:", "  "), *told, *note] if told else []


def remedy_named(advice: Advice, side: SideShown, remedy: str, changes: Changes) -> list[Line]:
    """Return one remedy with every option and finding in full; raises KeyError when the side does not know it."""
    found = {each.id: each for each in side.remedies}[remedy]
    head = f"{found.title}: {OUTCOMES.get(found.outcome, found.outcome)}"
    lines = [*wrapped(head, "  "), *_nearest(remedy, changes, 2)]
    if not found.options:
        return [*lines, *wrapped("No part could be used for it here.", "  ")]
    return [*lines, *(line for option in found.options for line in _in_full(advice, option))]


def _nearest(remedy: str, changes: Changes, indent: int) -> list[Line]:
    texts = changes.get(remedy)
    return wrapped(f"Nearest change: {'; or '.join(texts)}.", " " * indent, " " * (indent + 2)) if texts else []


def _in_full(advice: Advice, option: OptionShown) -> list[Line]:
    condition = f", {option.condition}" if option.condition else ""
    return [
        BLANK,
        *wrapped(f"{readable(option.part)}: {OUTCOMES.get(option.outcome, option.outcome)}{condition}", "  "),
        *(wrapped(option.disagreement, "    ") if option.disagreement else ()),
        *(line for each in option.findings for line in finding_lines(each, advice.trace, 4)),
    ]


def _remedy(remedy: RemedyShown, side: SideShown) -> list[Line]:
    if remedy.id == side.remedy:
        return _others(remedy, side)
    head = f"{remedy.title}: {OUTCOMES.get(remedy.outcome, remedy.outcome)}"
    if not remedy.options:
        return wrapped(f"{head}; no part could be used for it here", "  * ")
    if remedy.outcome in CLEARED:
        after = AFTER if side.remedy is not None else BY_ITSELF
        return wrapped(f"{head}; {after}", "  * ")
    return [*wrapped(head, "  * "), *(line for option in _apart(remedy.options) for line in _option(option))]


def _others(remedy: RemedyShown, side: SideShown) -> list[Line]:
    """Return what became of the other parts for the chosen remedy."""
    taken = chosen(side)
    others = [each for each in remedy.options if taken is None or each.part != taken.part]
    if not others:
        return []
    lines = [line for option in _apart(tuple(others)) for line in _option(option)]
    return [*wrapped(f"{remedy.title}, with another part", "  * "), *lines]


def _apart(options: tuple[OptionShown, ...]) -> list[OptionShown]:
    """Return the options, of several stopped for the same reasons only the first."""
    told: dict[tuple[str, ...], OptionShown] = {}
    for option in options:
        told.setdefault((option.outcome, *(each.rule for each in telling(option))), option)
    return list(told.values())


def _option(option: OptionShown) -> list[Line]:
    head = f"{readable(option.part)}, {OUTCOMES.get(option.outcome, option.outcome)}"
    if option.outcome in CLEARED:
        return wrapped(f"{head}; the chosen part comes first in the order of parts", "    ")
    reasons = [*map(short, telling(option)), *filter(None, [option.disagreement])]
    return [*wrapped(f"{head}:", "    "), *bullets(reasons, 6)]
