"""`borewright cases`: cases with expectations, run as tests."""

from pathlib import Path
from typing import Annotated

import typer

from recommender.cli.house import House, books_for

app = typer.Typer(no_args_is_help=True, rich_markup_mode=None, help="Run cases that say what they expect.")
EXIT_MISSED = 1


@app.callback()
def _cases() -> None:
    """Run cases that say what they expect.

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
