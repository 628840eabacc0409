"""`borewright cases`: cases with expectations run as tests, and bench sheets turned into readings."""

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from recommender.cli.guard import EXIT_CANNOT_JUDGE
from recommender.cli.house import House, books_for

if TYPE_CHECKING:
    from recommender.bench.sheet_import import ImportedSheet

app = typer.Typer(
    no_args_is_help=True, rich_markup_mode=None, help="Run cases that say what they expect; import bench sheets."
)
EXIT_MISSED = 1


@app.callback()
def _cases() -> None:
    """Run cases that say what they expect; import bench sheets.

    Example: borewright cases run bench
    """


@app.command("run")
def run(
    paths: Annotated[
        list[Path] | None,
        typer.Argument(
            metavar="[FOLDER_OR_FILE...]", help="Case files or folders of them; else the cases shipped here.",
            show_default=False,
        ),
    ] = None,
    house: House = None,
) -> None:
    """Run every case that has an `expect`, and say which expectations were missed.

    Example: borewright cases run bench/2026
    """
    from recommender.account.terminal import print_lines
    from recommender.account.trials_text import trial_lines
    from recommender.reading.shipped import shipped_cases
    from recommender.trials.run_cases import run_cases

    books = books_for(house)
    results = run_cases([Path(each) for each in paths or [shipped_cases()]], books.on)
    print_lines(trial_lines(results))
    if not results or any(not each.met for each in results):
        raise typer.Exit(EXIT_MISSED)


@app.command("import")
def import_sheet(
    sheet: Annotated[Path, typer.Argument(metavar="SHEET.csv", help="A bench sheet that was filled in.")],
    case: Annotated[
        Path | None,
        typer.Option("--case", metavar="CASE", help="Case file the sheet belongs to; it is not changed.",
                     show_default=False),
    ] = None,
) -> None:  # fmt: skip
    """Print the readings of a bench sheet, or a scan's points, as a case holds them, or name every bad cell by place.

    With a case, its id, instruments, their ranges and the depths of the seats are checked too. A scan has the columns
    side, instrument, depth_mm and turn_deg, radius_mm or x_mm, y_mm.

    Example: borewright cases import sheet.csv --case bench/lane-2041.yaml
    """
    from recommender.bench.sheet_blocks import blocks_text
    from recommender.cli.guard import say
    from recommender.cli.trouble import or_flaws, print_flaws
    from recommender.ground.flaw import Flawed

    try:
        found = _imported(sheet, None) if case is None else or_flaws(partial(_imported, sheet, case), case, out=False)
    except Flawed as refused:
        print_flaws(refused)
        found = None
    if found is None:
        raise typer.Exit(EXIT_CANNOT_JUDGE)
    for warning in found.warnings:
        say(str(warning))
    typer.echo(blocks_text(found.blocks), nl=False)


def _imported(sheet: Path, case: Path | None) -> "ImportedSheet":
    from recommender.bench.load import load_case
    from recommender.bench.scan_import import is_scan, scan_in
    from recommender.bench.sheet_import import sheet_in
    from recommender.reading.files import read_text_file

    text, loaded = read_text_file(sheet), None if case is None else load_case(case)
    return (scan_in if is_scan(text) else sheet_in)(text, str(sheet), loaded)
