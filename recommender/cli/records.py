"""`borewright records`: kept advice looked at, compared, and what was done in the end."""

from pathlib import Path
from typing import Annotated

import typer

app = typer.Typer(no_args_is_help=True, rich_markup_mode=None, help="Look at kept records and say what was done.")
Kept = Annotated[Path, typer.Argument(metavar="RECORD", help="A record that `advise --keep` wrote.")]


@app.command("show")
def show(record: Kept) -> None:
    """Show a record in a few lines, and what was done in the end.

    Example: borewright records show kept/lane-2041-0123456789ab.json
    """
    from recommender.account.records_text import record_lines
    from recommender.account.terminal import print_lines
    from recommender.records.disposition import dispositions
    from recommender.records.store import read_record

    print_lines(record_lines(read_record(record), dispositions(record)))


@app.command("compare")
def compare(
    before: Annotated[Path, typer.Argument(metavar="BEFORE", help="The earlier record.")],
    after: Annotated[Path, typer.Argument(metavar="AFTER", help="The later record of the same frame.")],
) -> None:
    """Say what differs between two records of one frame: case, rules, limits, engine and decision.

    Example: borewright records compare kept/lane-2041-0123456789ab.json kept/lane-2041-ba9876543210.json
    """
    from recommender.account.records_text import compared_lines
    from recommender.account.terminal import print_lines
    from recommender.records.difference import difference
    from recommender.records.store import read_record

    one, two = read_record(before), read_record(after)
    print_lines(compared_lines(one, two, difference(one.content, two.content)))


@app.command("done")
def done(
    record: Kept,
    by: Annotated[str, typer.Option("--by", help="Who did it.")],
    dated: Annotated[str, typer.Option("--date", metavar="YYYY-MM-DD", help="When.")],
    what: Annotated[str, typer.Option("--what", help="What was done, in words.")],
    drive: Annotated[
        str | None, typer.Option("--drive", help="Remedy done there, or `nothing`.", show_default=False)
    ] = None,
    non_drive: Annotated[
        str | None, typer.Option("--non-drive", help="Remedy done there, or `nothing`.", show_default=False)
    ] = None,
    reason: Annotated[str, typer.Option("--reason", help="Why, where it is not what was decided.")] = "",
) -> None:
    """Enter beside a record what was done in the end; the record and its verdict stay as they are.

    Example: borewright records done kept/lane-2041-0123456789ab.json --by "bench 1" --date 2026-05-06
    --what "cups pressed" --drive press_as_is
    """
    from recommender.account.records_text import disposition_lines
    from recommender.account.terminal import print_lines
    from recommender.reading.types import iso_date
    from recommender.records.disposition import Done, dispositions, enter
    from recommender.records.store import read_record

    try:
        day = iso_date(dated)
    except ValueError as wrong:
        raise typer.BadParameter(str(wrong), param_hint="--date") from None
    enter(record, Done(by=by, dated=day, what=what, drive=drive, non_drive=non_drive, reason=reason))
    print_lines(disposition_lines(read_record(record), dispositions(record)))
