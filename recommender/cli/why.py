"""`borewright why`: how a decision came about, down to the readings."""

from enum import StrEnum
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from recommender.cli.guard import EXIT_CANNOT_JUDGE
from recommender.cli.house import House, books_for
from recommender.cli.keep import Kept, kept_advice, since_earlier

if TYPE_CHECKING:
    from recommender.deciding.answer import Advice


class Side(StrEnum):
    """The two sides of a shell."""

    drive = "drive"
    non_drive = "non_drive"


Case = Annotated[Path, typer.Argument(metavar="CASE|RECORD", help="A case file, or a kept record.", show_default=False)]
OneSide = Annotated[Side | None, typer.Option("--side", help="Only this side.", show_default=False)]
OneRemedy = Annotated[str | None, typer.Option("--remedy", help="Only this remedy, in full.", show_default=False)]


def why_case(
    case: Case, side: OneSide = None, remedy: OneRemedy = None, house: House = None, kept: Kept = None
) -> None:
    """Say why each side was decided so: what stopped every other remedy, by how much, and on which readings.

    Example: borewright why bench/kiln-2014.yaml --side drive --remedy press_as_is
    """
    from recommender.account.terminal import print_lines
    from recommender.account.why_text import why_lines
    from recommender.ground.suggest import did_you_mean
    from recommender.records.store import is_record

    advice = kept_advice(case) if is_record(case) else _judged(case, house)
    known_remedies = [each.id for each in advice.sides["drive"].remedies]
    if remedy is not None and remedy not in known_remedies:
        known = did_you_mean(remedy, known_remedies)
        raise typer.BadParameter(f"`{remedy}` is no remedy. {known}", param_hint="--remedy")
    print_lines(why_lines(advice, None if side is None else side.value, remedy))
    print_lines(since_earlier(advice, case.parent if kept is None else kept))


def _judged(case: Path, house: Path | None) -> "Advice":
    from recommender.cli.advise import judged
    from recommender.cli.trouble import or_flaws

    books = books_for(house, [case])
    found = or_flaws(partial(judged, case, books), case, books.damage_notice)
    if found is None:
        raise typer.Exit(EXIT_CANNOT_JUDGE)
    return found.advice
