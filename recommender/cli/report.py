"""`borewright report`: the written account as one page for owner, shop and warranty desk."""

from functools import partial
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from recommender.cli.guard import EXIT_CANNOT_JUDGE, say
from recommender.cli.house import Books, House, books_for

if TYPE_CHECKING:
    from recommender.account.page_matter import Matter

NEEDED = {"jinja2": "Jinja2", "matplotlib": "matplotlib"}
RULES_CHANGED = (
    "the rules changed since this record was kept: answer and numbers are the kept ones, but titles, standards and "
    "fit windows on the page are those of today. `borewright replay` says whether the answer still stands."
)
Case = Annotated[Path, typer.Argument(metavar="CASE|RECORD", help="A case file, or a kept record.", show_default=False)]
To = Annotated[Path, typer.Option("--to", metavar="FILE.html", help="Where to write the page.", show_default=False)]


def report_case(case: Case, to: To, house: House = None) -> None:
    """Write the account as one page that needs nothing else: to read, to print on A4, to hand on.

    Photographs are looked for beside the case file; a record has none, so its page lists them as missing.

    Example: borewright report bench/lane-2041.yaml --to lane-2041.html
    """
    from recommender.cli.trouble import or_flaws

    missing = [package for module, package in NEEDED.items() if find_spec(module) is None]
    if missing:
        _stop_riding(case)
        say(f"the page needs {' and '.join(missing)}, not installed here [report.extra]\n"
            "      Install the extra: pip install 'borewright[report]'")  # fmt: skip
        raise typer.Exit(EXIT_CANNOT_JUDGE)
    books = books_for(house, [case])
    if or_flaws(partial(_write, case, to, books), case, books.damage_notice) is None:
        raise typer.Exit(EXIT_CANNOT_JUDGE)


def _write(case: Path, to: Path, books: Books) -> Path:
    from recommender.account.page import page
    from recommender.reading.files import write_atomically
    from recommender.records.store import is_record

    write_atomically(to, page(_of_record(case, books) if is_record(case) else _of_case(case, books)))
    return to


def _of_case(case: Path, books: Books) -> "Matter":
    from recommender.account.page_matter import Matter
    from recommender.cli.advise import judged

    found = judged(case, books)
    return Matter(found.advice, found.loaded, found.book, case.parent)


def _of_record(path: Path, books: Books) -> "Matter":
    """Return what the page of a record is made from; raises Flawed when its case cannot be read as it was then.

    No folder of photographs belongs to a record: those that lie beside it by chance may be of another frame.
    """
    from recommender.account.page_matter import Matter
    from recommender.deriving.words import word_flaws
    from recommender.ground.flaw import Flawed
    from recommender.records.case_text import load_case_text
    from recommender.records.record import file_shown
    from recommender.records.restore import advice_from
    from recommender.records.store import read_record

    record = read_record(path)
    try:
        loaded = load_case_text(record.content.case_text, file_shown(record.content.case))
        book = books.on(loaded.case.received)
        if unknown := word_flaws(loaded, book):
            raise Flawed(unknown)
    except Flawed:
        _stop_riding(path)
        raise
    if book.fingerprint != record.content.book.fingerprint:
        say(f"{path}: {RULES_CHANGED}")
    return Matter(advice_from(record.content.advice), loaded, book, path.with_suffix(""))


def _stop_riding(path: Path) -> None:
    """Print the stop-riding notice of a case or record of which no page is written; nothing where it has none."""
    from recommender.account.answer_text import stop_riding_lines
    from recommender.account.terminal import print_lines
    from recommender.cli.keep import kept_advice
    from recommender.cli.trouble import print_notice
    from recommender.records.store import is_record

    if is_record(path):
        print_lines(stop_riding_lines(kept_advice(path)))
    else:
        print_notice(path)
