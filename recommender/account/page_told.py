"""Texts on the page that carry numbers, each with the step of the trace they come from."""

import re
from typing import NamedTuple

from markupsafe import Markup, escape

from recommender.account.inches import where_asked
from recommender.account.numbers import with_interval
from recommender.deciding.answer import Found

STEERING = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff\ufff9-\ufffb]")
UNITS = ((re.compile(r"(?<=\d) um\b"), "\u00a0µm"), (re.compile(r"(?<=\d) degC\b"), "\u00a0°C"))
WITHIN_AN_ID = re.compile(r"(?<=[a-z_][_.])(?=[a-z])|(?<=[a-z]_)(?=\d)")
TIED = re.compile(r"(?<=\d) (?=(?:mm|in|MPa|N|arcmin|K|km|kg|deg)\b)")


class Told(NamedTuple):
    """A text and where its numbers come from; `assumed` when the spread behind it was assumed, not measured.

    `trace` is the id of a step of the trace, or names a line of the case (`case:PATH`), a sentence of the wording
    (`words:KIND/ID`), an entry of the rule book (`book:STANDARD`) or a key of the advice (`advice:KEY`).
    """

    text: str
    trace: str
    assumed: bool = False

    def __html__(self) -> str:
        """Return the text as markup, with where it comes from beside it."""
        mark = Markup(' <abbr class="assumed" title="assumed, not measured">assumed</abbr>') if self.assumed else ""
        return Markup('<span data-trace="{}">{}{}</span>').format(self.trace, typeset(self.text), mark)


def fact(found: Found | None, where: str) -> Told:
    """Return a fact with its interval; `where` is its step in the trace."""
    if found is None:
        return Told("not derived", where)
    return Told(with_interval(found), where, bool(found.assumed))


def typeset(text: str) -> Markup:
    """Return a text as it is printed: units by their signs and tied to their numbers, ids free to break."""
    text = where_asked(text)
    for pattern, sign in UNITS:
        text = pattern.sub(sign, text)
    tied = TIED.sub("\u00a0", seen(text).replace("+-", "±"))
    return Markup("<wbr>").join(escape(each) for each in WITHIN_AN_ID.split(tied))


def seen(text: str) -> str:
    """Return a text in which no character steers the page.

    Those that would, such as marks that turn the direction of writing, are shown as a replacement sign.
    """
    return STEERING.sub("\ufffd", text)


def finalised(value: object) -> object:
    """Return what a template prints for a value: nothing for None, text without steering characters."""
    if value is None:
        return ""
    return seen(value) if isinstance(value, str) and not isinstance(value, Markup) else value
