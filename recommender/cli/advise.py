"""`borewright advise`: what may be done to each side of a frame, and what to fit."""

from enum import StrEnum
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, NamedTuple

import typer

from recommender.cli.guard import EXIT_CANNOT_JUDGE
from recommender.cli.house import Books, House, books_for
from recommender.cli.inches import Inches
from recommender.cli.keep import Keep, keep_advice

if TYPE_CHECKING:
    from recommender.bench.load import LoadedCase
    from recommender.deciding.answer import Advice
    from recommender.rulebook.book import Rulebook


class Format(StrEnum):
    """How the answer is printed."""

    text = "text"
    json = "json"


class Judged(NamedTuple):
    """A case as it was read, the book that judged it, and the advice."""

    loaded: "LoadedCase"
    book: "Rulebook"
    advice: "Advice"


Cases = Annotated[list[Path], typer.Argument(metavar="CASE...", help="Case files.", show_default=False)]
AsFormat = Annotated[
    Format, typer.Option("--format", help="text to read; json: one object for each case, one on a line.")
]


def advise_cases(
    cases: Cases, house: House = None, form: AsFormat = Format.text, keep: Keep = None, inches: Inches = False
) -> None:
    """Say what may be done to each side, what to fit, and what to settle first.

    Example: borewright advise bench/lane-2041.yaml --house our-rules
    """
    from recommender.account.inches import also_in_inches
    from recommender.cli.trouble import or_flaws

    text = form is Format.text
    books = books_for(house, cases, out=text)
    failed = False
    for count, path in enumerate(cases):
        found = or_flaws(partial(judged, path, books, keep), path, books.damage_notice, out=text)
        if found is None:
            failed = True
            continue
        # Kept first: whoever reads the answer may stop reading, and what was answered is kept all the same.
        if keep is not None and not keep_advice(found.loaded, found.advice, found.book, keep):
            failed = True
        with also_in_inches(inches):
            _print(found.advice, form, first=count == 0)
    if failed:
        raise typer.Exit(EXIT_CANNOT_JUDGE)


def judged(path: Path, books: Books, keep: Path | None = None) -> Judged:
    """Return a case file with its advice, with what is odd about the file told on the error stream.

    Raises Flawed when the file cannot be judged, or leaves out the damage of an earlier round that is kept beside it
    or in the folder `keep`.
    """
    from recommender.advice import advise
    from recommender.bench.load import load_case
    from recommender.cli.guard import say

    loaded = load_case(path)
    for warning in loaded.warnings:
        say(str(warning))
    book = books.on(loaded.case.received)
    advice = advise(loaded, book)
    if advice.case.follows is not None:
        from recommender.records.second_round import damage_kept

        damage_kept(path, advice, path.parent, *([] if keep is None else [keep]))
    return Judged(loaded, book, advice)


def _print(advice: "Advice", form: Format, first: bool) -> None:
    from recommender.account.answer_text import answer_lines
    from recommender.account.lines import BLANK
    from recommender.account.terminal import print_lines
    from recommender.deciding.answer import to_json

    if form is Format.json:
        typer.echo(to_json(advice))
        return
    print_lines([*([] if first else [BLANK]), *answer_lines(advice)])
