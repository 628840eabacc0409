"""`borewright advise`: what may be done to each side of a frame, and what to fit."""

from enum import StrEnum
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from recommender.cli.guard import EXIT_CANNOT_JUDGE
from recommender.cli.house import Books, House, books_for

if TYPE_CHECKING:
    from recommender.deciding.answer import Advice


class Format(StrEnum):
    """How the answer is printed."""

    text = "text"
    json = "json"


Cases = Annotated[list[Path], typer.Argument(metavar="CASE...", help="Case files.", show_default=False)]
AsFormat = Annotated[
    Format, typer.Option("--format", help="text to read; json: one object for each case, one on a line.")
]


def advise_cases(cases: Cases, house: House = None, form: AsFormat = Format.text) -> None:
    """Say what may be done to each side, what to fit, and what to settle first.

    Example: borewright advise bench/lane-2041.yaml --house our-rules
    """
    from recommender.cli.trouble import or_flaws

    text = form is Format.text
    books = books_for(house, cases, out=text)
    failed = False
    for count, path in enumerate(cases):
        advice = or_flaws(partial(judged, path, books), path, books.damage_notice, out=text)
        failed = failed or advice is None
        if advice is not None:
            _print(advice, form, first=count == 0)
    if failed:
        raise typer.Exit(EXIT_CANNOT_JUDGE)


def judged(path: Path, books: Books) -> "Advice":
    """Return the advice for a case file, with what is odd about the file told on the error stream.

    Raises Flawed when the file cannot be judged.
    """
    from recommender.advice import advise
    from recommender.bench.load import load_case
    from recommender.cli.guard import say

    loaded = load_case(path)
    for warning in loaded.warnings:
        say(str(warning))
    return advise(loaded, books.on(loaded.case.received))


def _print(advice: "Advice", form: Format, first: bool) -> None:
    from recommender.account.answer_text import answer_lines
    from recommender.account.lines import BLANK
    from recommender.account.terminal import print_lines
    from recommender.deciding.answer import to_json

    if form is Format.json:
        typer.echo(to_json(advice))
        return
    print_lines([*([] if first else [BLANK]), *answer_lines(advice)])
