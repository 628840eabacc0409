"""`borewright report`: the written account as one page for owner, shop and warranty desk."""

from functools import partial
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from recommender.cli.guard import EXIT_CANNOT_JUDGE, say
from recommender.cli.house import Books, House, books_for
from recommender.cli.inches import Inches
from recommender.cli.quick import Quick

if TYPE_CHECKING:
    from recommender.account.page_matter import Matter

NEEDED = {"jinja2": "Jinja2", "matplotlib": "matplotlib"}
RULES_CHANGED = (
    "the rules changed since this record was kept: answer and numbers are the kept ones, but titles, standards and "
    "fit windows on the page are those of today. `borewright replay` says whether the answer still stands."
)
Case = Annotated[Path, typer.Argument(metavar="CASE|RECORD", help="A case file, or a kept record.", show_default=False)]
Language = Annotated[
    str, typer.Option("--language", metavar="LANGUAGE", help="Language of the owner's part: en or de.")
]
To = Annotated[Path, typer.Option("--to", metavar="FILE.html", help="Where to write the page.", show_default=False)]


def report_case(
    case: Case, to: To, language: Language = "en", house: House = None, quick: Quick = False,
    inches: Inches = False,
) -> None:  # fmt: skip
    """Write the account as one page that needs nothing else: to read, to print on A4, to hand on.

    Photographs are looked for beside the case file; a record has none, so its page lists them as missing.

    Example: borewright report bench/lane-2041.yaml --to lane-2041.html

    Example: borewright report bench/lane-2041.yaml --to lane-2041-de.html --language de
    """
    from recommender.account.inches import also_in_inches
    from recommender.cli.trouble import or_flaws

    missing = [package for module, package in NEEDED.items() if find_spec(module) is None]
    if missing:
        _stop_riding(case)
        say(f"the page needs {' and '.join(missing)}, not installed here [report.extra]\n"
            "      Install the extra: pip install 'borewright[report]'")  # fmt: skip
        raise typer.Exit(EXIT_CANNOT_JUDGE)
    books = books_for(house, [case])
    _known_language(language, books)
    with also_in_inches(inches):
        written = or_flaws(partial(_write, case, to, language, books, quick), case, books.damage_notice)
    if written is None:
        raise typer.Exit(EXIT_CANNOT_JUDGE)


def _known_language(language: str, books: Books) -> None:
    from recommender.account.page_language import languages

    known = languages(books.undated)
    if language not in known:
        told = f"The owner's page has no sentences in `{language}`. Known here: {', '.join(known)}."
        raise typer.BadParameter(told, param_hint="--language")


def _write(case: Path, to: Path, language: str, books: Books, quick: bool) -> Path:
    from recommender.account.page import page
    from recommender.reading.files import write_atomically
    from recommender.records.store import is_record

    if is_record(to) or (to.exists() and case.exists() and to.samefile(case)):
        raise typer.BadParameter("a case or record is never written over; name another file", param_hint="--to")
    matter = _of_record if is_record(case) else _of_case
    write_atomically(to, page(matter(case, books, quick), language))
    return to


def _of_case(case: Path, books: Books, quick: bool) -> "Matter":
    from recommender.account.page_matter import Matter
    from recommender.asking.nearest import lost_remedies
    from recommender.cli.advise import judged

    found = judged(case, books)
    lost = () if quick else lost_remedies(found.loaded, found.advice, found.book)
    return Matter(found.advice, found.loaded, found.book, case.parent, lost)


def _of_record(path: Path, books: Books, quick: bool) -> "Matter":
    """Return what the page of a record is made from; raises Flawed when its case cannot be read as it was then.

    No folder of photographs belongs to a record: those that lie beside it by chance may be of another frame.
    """
    from recommender.account.page_matter import Matter
    from recommender.asking.nearest import lost_remedies
    from recommender.cli.kept_case import kept_case
    from recommender.ground.flaw import Flawed

    try:
        kept = kept_case(path, books)
    except Flawed:
        _stop_riding(path)
        raise
    if not kept.same_book:
        say(f"{path}: {RULES_CHANGED}")
    lost = () if quick or not kept.same_book else lost_remedies(kept.loaded, kept.advice, kept.book)
    return Matter(kept.advice, kept.loaded, kept.book, path.with_suffix(""), lost)


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
