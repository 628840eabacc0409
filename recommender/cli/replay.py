"""`borewright replay`: kept records judged again by the present rules and engine."""

import json
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from recommender.cli.advise import Format
from recommender.cli.guard import EXIT_CANNOT_JUDGE
from recommender.cli.house import Books, House, books_for

if TYPE_CHECKING:
    from recommender.trials.replay import Replayed

EXIT_FALLEN = 1
Records = Annotated[
    list[Path], typer.Argument(metavar="RECORD...", help="Kept records, or folders of them.", show_default=False)
]
AsFormat = Annotated[Format, typer.Option("--format", help="text to read; json: one object for each record, a line.")]


def replay_records(records: Records, house: House = None, form: AsFormat = Format.text) -> None:
    """Judge kept records again, and say for each whether it still stands and, if not, what changed.

    Example: borewright replay kept --house our-rules
    """
    from recommender.account.records_text import replayed_line
    from recommender.account.terminal import print_lines
    from recommender.cli.trouble import print_flaws
    from recommender.ground.flaw import Flawed
    from recommender.records.store import record_files

    books = books_for(house)
    unreadable, stood, count = False, 0, 0
    for path in record_files(records):
        try:
            replayed = _replayed(path, books)
        except Flawed as found:
            print_flaws(found)
            unreadable = True
            continue
        count, stood = count + 1, stood + replayed.stands
        _print(replayed, form)
    if form is Format.text:
        print_lines([replayed_line(count, stood)])
    if unreadable or count == 0:
        raise typer.Exit(EXIT_CANNOT_JUDGE)
    if stood < count:
        raise typer.Exit(EXIT_FALLEN)


def _replayed(path: Path, books: Books) -> "Replayed":
    from recommender.records.store import read_record
    from recommender.trials.replay import replay

    return replay(read_record(path), books.on)


def _print(replayed: "Replayed", form: Format) -> None:
    from recommender.account.records_text import replay_lines
    from recommender.account.terminal import print_lines
    from recommender.trials.replay import replayed_data

    if form is Format.json:
        typer.echo(json.dumps(replayed_data(replayed), ensure_ascii=False, separators=(",", ":")))
        return
    print_lines(replay_lines(replayed))
