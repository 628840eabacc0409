"""`borewright records`: kept advice looked at, compared, and what was done in the end."""

from datetime import date
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
    check: Annotated[
        list[str] | None,
        typer.Option("--check", metavar="CHECK=ANSWER", help="A check after pressing, such as drive.bearing_spins=yes, "
                     "drive.force='820 N' or side_play=no; may be given several times.", show_default=False),
    ] = None,
    look_again: Annotated[
        str | None,
        typer.Option("--look-again", metavar="YYYY-MM-DD", help="The day it is looked at again.", show_default=False),
    ] = None,
) -> None:
    """Enter beside a record what was done in the end; the record and its verdict stay as they are.

    Example: borewright records done kept/lane-2041-0123456789ab.json --by "bench 1" --date 2026-05-06
    --what "cups pressed" --drive press_as_is --non-drive press_as_is --check drive.bearing_spins=yes
    --check side_play=no --look-again 2026-06-20
    """
    from recommender.account.records_text import disposition_lines
    from recommender.account.terminal import print_lines
    from recommender.records.after_pressing import entered
    from recommender.records.disposition import Done, dispositions, enter
    from recommender.records.store import read_record

    try:
        answers = entered(check or [])
    except ValueError as wrong:
        raise typer.BadParameter(str(wrong), param_hint="--check") from None
    enter(record, Done(
        by=by, dated=_day(dated, "--date"), what=what, drive=drive, non_drive=non_drive, reason=reason, checks=answers,
        look_again=None if look_again is None else _day(look_again, "--look-again"),
    ))  # fmt: skip
    print_lines(disposition_lines(read_record(record), dispositions(record)))


def _day(given: str, option: str) -> date:
    from recommender.reading.types import iso_date

    try:
        return iso_date(given)
    except ValueError as wrong:
        raise typer.BadParameter(str(wrong), param_hint=option) from None
