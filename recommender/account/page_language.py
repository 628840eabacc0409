"""The sentences of the owner's page in one language."""

import re
from collections.abc import Mapping

from markupsafe import Markup, escape

from recommender.account.page_told import Told, typeset
from recommender.rulebook.book import Rulebook

ENGLISH = "en"
MARKED = {"en": "en-GB"}
PLACE = re.compile(r"\{([a-z]+)\}")
Value = Told | Markup | str


class Sentences:
    """The owner's sentences by id, with what fills their {places}."""

    def __init__(self, book: Rulebook, language: str = ENGLISH) -> None:
        """Take the sentences of a language; raises KeyError where the book holds none in it."""
        self.language = language
        prefix = "" if language == ENGLISH else f"{language}/"
        self._own = book.wording[f"{prefix}owner"]
        self._others: Mapping[str, Mapping[str, str]] = {
            kind: {} if language == ENGLISH else book.wording[f"{prefix}{kind}"] for kind in ("notices", "deferrals")
        }

    @property
    def mark(self) -> str:
        """Return the language as a page names it."""
        return MARKED.get(self.language, self.language)

    def __contains__(self, name: str) -> bool:
        """Return whether there is a sentence with this id."""
        return name in self._own

    def plain(self, name: str) -> str:
        """Return a sentence as it stands; raises KeyError for an unknown id."""
        return self._own[name]

    def first(self, *names: str) -> str:
        """Return the first of these sentences there is; raises KeyError when there is none."""
        return self._own[next((each for each in names if each in self._own), names[-1])]

    def __call__(self, name: str, **values: Value) -> Markup:
        """Return a sentence with its {places} filled, ready for the page."""
        parts = PLACE.split(self._own[name])
        told = [_shown(values[each]) if count % 2 else typeset(each) for count, each in enumerate(parts)]
        return Markup("").join(told)

    def said(self, kind: str, name: str, text: str) -> str:
        """Return a notice or deferral in this language, else the text of the advice."""
        return self._others[kind].get(name, text)


def languages(book: Rulebook) -> tuple[str, ...]:
    """Return the languages the owner's page can be had in, English first."""
    other = sorted(kind.removesuffix("/owner") for kind in book.wording if kind.endswith("/owner"))
    return (ENGLISH, *other)


def _shown(value: Value) -> Markup:
    return Markup(value.__html__()) if isinstance(value, Told) else escape(value)
