"""`borewright report`: the written account as one page for owner, shop and warranty desk."""

from functools import partial
from importlib.util import find_spec
from pathlib import Path
from typing import Annotated

import typer

from recommender.cli.guard import EXIT_CANNOT_JUDGE, say
from recommender.cli.house import Books, House, books_for

NEEDED = {"jinja2": "Jinja2", "matplotlib": "matplotlib"}
Case = Annotated[Path, typer.Argument(metavar="CASE", help="A case file.", show_default=False)]
To = Annotated[Path, typer.Option("--to", metavar="FILE.html", help="Where to write the page.", show_default=False)]


def report_case(case: Case, to: To, house: House = None) -> None:
    """Write the account as one page that needs nothing else: to read, to print on A4, to hand on.

    Photographs are looked for beside the case file.

    Example: borewright report bench/lane-2041.yaml --to lane-2041.html
    """
    from recommender.cli.trouble import or_flaws, print_notice

    missing = [package for module, package in NEEDED.items() if find_spec(module) is None]
    if missing:
        print_notice(case)
        say(f"the page needs {' and '.join(missing)}, not installed here [report.extra]\n"
            "      Install the extra: pip install 'borewright[report]'")  # fmt: skip
        raise typer.Exit(EXIT_CANNOT_JUDGE)
    books = books_for(house, [case])
    if or_flaws(partial(_write, case, to, books), case, books.damage_notice) is None:
        raise typer.Exit(EXIT_CANNOT_JUDGE)


def _write(case: Path, to: Path, books: Books) -> Path:
    from recommender.account.page import page
    from recommender.account.page_matter import Matter
    from recommender.advice import advise
    from recommender.bench.load import load_case
    from recommender.reading.files import write_atomically

    loaded = load_case(case)
    for warning in loaded.warnings:
        say(str(warning))
    book = books.on(loaded.case.received)
    write_atomically(to, page(Matter(advise(loaded, book), loaded, book, case.parent)))
    return to
