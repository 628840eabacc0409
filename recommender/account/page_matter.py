"""What the page is made from, and the small questions every part of it asks."""

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from recommender.account.answer_side import chosen
from recommender.account.page_told import Told
from recommender.account.words import SIDES, both_sides, capital, readable, stop
from recommender.asking.nearest import Lost
from recommender.bench.case import Case
from recommender.bench.load import LoadedCase
from recommender.bench.sides import Side
from recommender.deciding.answer import Advice, Finding, OptionShown, SideShown, Words
from recommender.rulebook.book import Rulebook, Standard


class Matter(NamedTuple):
    """An advice, the case it is about, the book it was judged by, and the folder the photographs lie in.

    `lost` says what would clear each remedy that lost.
    """

    advice: Advice
    loaded: LoadedCase
    book: Rulebook
    folder: Path
    lost: tuple[Lost, ...] = ()

    @property
    def case(self) -> Case:
        """Return the case as it was read."""
        return self.loaded.case

    @property
    def standard(self) -> Standard | None:
        """Return the shell standard the frame is taken to follow, None when the book does not know it."""
        return self.book.standards.get(self.case.frame.standard)

    def sides(self) -> Iterator[tuple[str, SideShown, Side]]:
        """Yield each side by name: what was decided, and what was written down on the bench."""
        measured = dict(self.case.sides.items())
        for name, side in self.advice.sides.items():
            yield name, side, measured[name]

    def notices(self, *ids: str) -> list[Told]:
        """Return the notices with these ids, in the order of the advice."""
        return [said(each, "notices") for each in self.advice.notices if each.id in ids]


class Row(NamedTuple):
    """A label and what stands beside it."""

    label: Told | str
    values: Sequence[Told | str]


def said(words: Words, kind: str) -> Told:
    """Return a sentence of the wording, with the side in front when it is for one side."""
    return Told(f"{both_sides(words.sides)}{stop(words.text)}", f"words:{kind}/{words.id}")


def row(label: Told | str, *values: Told | str | None) -> Row:
    """Return a row; what is None is left out."""
    return Row(label, [each for each in values if each])


def rows(given: Sequence[Row]) -> list[Row]:
    """Return the rows that hold anything."""
    return [each for each in given if each.values]


def side_title(name: str) -> str:
    """Return the side as a heading: `Drive side`."""
    return capital(SIDES[name])


def open_findings(advice: Advice) -> Iterator[tuple[str, Finding]]:
    """Yield every finding that counts as a caution without having been decided, with the side it is about."""
    yield from (("", each) for each in advice.frame.findings if _open(each))
    for name, side in advice.sides.items():
        option = chosen(side)
        spoken = (*side.findings, *(option.findings if option is not None else ()))
        yield from ((name, each) for each in spoken if _open(each))


def _open(finding: Finding) -> bool:
    return (finding.outcome, finding.counts_as) == ("undecided", "cautions")


def option_of(side: SideShown) -> OptionShown | None:
    """Return the option behind the remedy of a side, None where there is none."""
    return chosen(side)


def listed_words(words: Mapping[str, str] | Sequence[str]) -> str:
    """Return words of the case as people read them, one after the other."""
    return ", ".join(readable(each) for each in words)
