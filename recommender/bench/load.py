"""The one door for case files."""

from collections.abc import Iterable
from pathlib import Path as FilePath
from typing import Any, NamedTuple

from recommender.bench.case import Case
from recommender.bench.checks import troubles
from recommender.bench.peek import peek_damage
from recommender.bench.trouble import Trouble
from recommender.ground.flaw import MOST_FLAWS, Flaw, Flawed, too_many
from recommender.reading.document import Document
from recommender.reading.validate import validated
from recommender.reading.yaml_reader import read_file


class LoadedCase(NamedTuple):
    """A case that can be judged, the document it stands in, and what was odd about it without stopping it."""

    case: Case
    document: Document
    warnings: tuple[Flaw, ...]


class FlawedCase(Flawed):
    """Raised when a case file cannot be used; `signs` are the signs of damage it names all the same."""

    def __init__(self, flaws: Iterable[Flaw], signs: tuple[str, ...]) -> None:
        """Keep flaws and signs."""
        super().__init__(flaws)
        self.signs = signs

    def __reduce__(self) -> tuple[Any, ...]:
        """Return what makes it anew in another process."""
        return type(self), (self.flaws, self.signs)


def load_case(path: FilePath | str) -> LoadedCase:
    """Return the case in a file; raises FlawedCase with every flaw found and the signs of damage it names."""
    try:
        document = read_file(FilePath(path))
    except Flawed as refused:
        raise FlawedCase(refused.flaws, peek_damage(path)) from None
    return case_in(document)


def case_in(document: Document) -> LoadedCase:
    """Return the case in a document; raises FlawedCase as `load_case` does."""
    checked = _checked(document)
    try:
        case = validated(document, Case)
    except Flawed as refused:
        raise FlawedCase([*refused.flaws, *checked], peek_damage(document)) from None
    if any(each.level == "error" for each in checked):
        raise FlawedCase(checked, peek_damage(document))
    return LoadedCase(case, document, tuple(sorted(checked, key=Flaw.sort_key)))


def _checked(document: Document) -> list[Flaw]:
    """Return what the checks find, errors before anything else when there is more than can be told."""
    found: list[Trouble] = sorted(troubles(document.data), key=lambda each: each.level != "error")
    told = [each.at(document) for each in found[:MOST_FLAWS]]
    return told if len(found) <= MOST_FLAWS else [*told, too_many(document.file)]
