"""`borewright why`: how a decision came about, down to the readings."""

from enum import StrEnum
from functools import partial
from pathlib import Path
from typing import Annotated

import typer

from recommender.cli.guard import EXIT_CANNOT_JUDGE
from recommender.cli.house import House, books_for


class Side(StrEnum):
    """The two sides of a shell."""

    drive = "drive"
    non_drive = "non_drive"


Case = Annotated[Path, typer.Argument(metavar="CASE", help="A case file.", show_default=False)]
OneSide = Annotated[Side | None, typer.Option("--side", help="Only this side.", show_default=False)]
OneRemedy = Annotated[str | None, typer.Option("--remedy", help="Only this remedy, in full.", show_default=False)]


def why_case(case: Case, side: OneSide = None, remedy: OneRemedy = None, house: House = None) -> None:
    """Say why each side was decided so: what stopped every other remedy, by how much, and on which readings.

    Example: borewright why bench/kiln-2014.yaml --side drive --remedy press_as_is
    """
    from recommender.account.terminal import print_lines
    from recommender.account.why_text import why_lines
    from recommender.cli.advise import judged
    from recommender.cli.trouble import or_flaws
    from recommender.ground.suggest import did_you_mean

    books = books_for(house, [case])
    known_remedies = [each.id for each in books.undated.remedies]
    if remedy is not None and remedy not in known_remedies:
        known = did_you_mean(remedy, known_remedies)
        raise typer.BadParameter(f"`{remedy}` is no remedy. {known}", param_hint="--remedy")
    advice = or_flaws(partial(judged, case, books), case, books.damage_notice)
    if advice is None:
        raise typer.Exit(EXIT_CANNOT_JUDGE)
    print_lines(why_lines(advice, None if side is None else side.value, remedy))
