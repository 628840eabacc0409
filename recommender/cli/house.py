"""The option that names a house folder, and the rule book with it."""

from collections.abc import Iterable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from recommender.cli.guard import EXIT_CANNOT_JUDGE
from recommender.cli.trouble import print_flaws, print_notice
from recommender.ground.flaw import Flawed

if TYPE_CHECKING:
    from recommender.rulebook.book import Rulebook

House = Annotated[Path | None, typer.Option("--house", help="Folder with the shop's own rules.", show_default=False)]


class Books:
    """The rule book with a shop's changes, as they are in force on the day a frame was received."""

    def __init__(self, house: Path | None) -> None:
        """Load the book once without a date; raises Flawed when it cannot be used."""
        from recommender.rulebook.load import load

        self._load, self._house = load, house
        self.undated = load(house)
        self._dated: dict[date, Rulebook] = {}

    def on(self, received: date) -> "Rulebook":
        """Return the book as it stood on a day; raises Flawed when a change was not valid then."""
        if self._house is None:
            return self.undated
        if received not in self._dated:
            self._dated[received] = self._load(self._house, on=received)
        return self._dated[received]

    @property
    def damage_notice(self) -> str:
        """Return the stop-riding notice in the words of the book."""
        from recommender.account.stop_riding import FALLBACK

        return self.undated.wording.get("notices", {}).get("damage", FALLBACK)


def books_for(house: Path | None, cases: Iterable[Path] = (), out: bool = True) -> Books:
    """Return the rule book; when it cannot be used, leave after telling why.

    A crack noted in one of the cases is spoken of all the same; `out` says whether on the output too.
    """
    try:
        return Books(house)
    except Flawed as found:
        for path in cases:
            print_notice(path, out=out)
        print_flaws(found)
        raise typer.Exit(EXIT_CANNOT_JUDGE) from None
