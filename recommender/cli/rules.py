"""`borewright rules`: the rule book looked at, checked, compared and begun."""

from datetime import date
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from recommender.cli.house import House, books_for

if TYPE_CHECKING:
    from recommender.checking.check import Checked
    from recommender.trials.compare import Comparison

app = typer.Typer(no_args_is_help=True, rich_markup_mode=None, help="Look at the rule book, check it, compare it.")
EXIT_FLAWED = 1
Rules = Annotated[
    Path | None, typer.Option("--rules", help="Another folder of rules than the shipped one.", show_default=False)
]
Cases = Annotated[
    list[Path] | None,
    typer.Option("--cases", help="Folder of cases; may be given several times.", show_default=False),
]


class Form(StrEnum):
    """How flaws are printed."""

    TEXT = "text"
    JSON = "json"
    SARIF = "sarif"


class PlainForm(StrEnum):
    """How differences are printed."""

    TEXT = "text"
    JSON = "json"


@app.command("check")
def check(
    house: House = None,
    rules: Rules = None,
    form: Annotated[Form, typer.Option("--format", help="How flaws are printed.")] = Form.TEXT,
    on: Annotated[
        str | None, typer.Option(metavar="DATE", help="Day on which reviews are judged, such as 2026-11-25.")
    ] = None,
    about: Annotated[str | None, typer.Option(metavar="ID", help="Print the page of a check instead.")] = None,
) -> None:
    """Print every flaw of the shipped rules and those of the house; leave with 1 when one of them is an error.

    Example: borewright rules check --house our-rules
    """
    if about is not None:
        _print_page(about)
        return
    from recommender.checking.check import check_folders

    day = _day(on)
    found = check_folders(house, rules, day)
    _print_flaws(form, found)
    if found.errors:
        raise typer.Exit(EXIT_FLAWED)


@app.command("facts")
def facts() -> None:
    """List every fact a rule may ask about: scope, unit, meaning, range, formula and source.

    Example: borewright rules facts
    """
    from recommender.account.rules_text import vocabulary_lines
    from recommender.account.terminal import print_lines

    print_lines(vocabulary_lines(books_for(None).undated))


@app.command("limits")
def limits(
    house: House = None,
    summary: Annotated[bool, typer.Option("--summary", help="Only count them by source.")] = False,
) -> None:
    """List every limit in force, with its value, safe side and source.

    Example: borewright rules limits --house our-rules
    """
    from recommender.account.book_text import limit_lines
    from recommender.account.rules_text import limits_summary
    from recommender.account.terminal import print_lines

    book = books_for(house).undated
    print_lines(limits_summary(book) if summary else limit_lines(book))


@app.command("show")
def show(
    name: Annotated[
        str,
        typer.Argument(
            metavar="ID",
            help="A fact, limit, rule, grid, remedy, part, standard, action or caution; or a list such as `parts`.",
        ),
    ],
    house: House = None,
) -> None:
    """Show one entry of the rule book or of the catalogue of facts, and who changed it why; or list all of a kind.

    The lists are grids, parts, remedies, standards, bearings, compounds, materials, causes, actions, cautions and
    deferrals.

    Example: borewright rules show polymer_cup.bar_low
    """
    from recommender.account.book_text import entry_lines, known_ids, section_lines
    from recommender.account.rules_text import provenance_lines
    from recommender.account.terminal import print_lines
    from recommender.ground.suggest import did_you_mean

    book = books_for(house).undated
    lines = [*section_lines(name, book), *entry_lines(name, book), *provenance_lines(name, book)]
    if not lines:
        raise typer.BadParameter(f"`{name}` is not known here. {did_you_mean(name, known_ids(book))}", param_hint="ID")
    print_lines(lines)


@app.command("compare")
def compare(
    old: Annotated[str, typer.Argument(metavar="OLD", help="`shipped`, a folder of rules, or a house folder.")],
    new: Annotated[str, typer.Argument(metavar="NEW", help="The same for the rules to compare with.")],
    cases: Cases = None,
    records: Annotated[
        list[Path] | None, typer.Option("--records", help="Folder of kept records.", show_default=False)
    ] = None,
    form: Annotated[PlainForm, typer.Option("--format", help="How the differences are printed.")] = PlainForm.TEXT,
) -> None:
    """Print which past decisions would change: milder, stricter, or another remedy; leave with 1 on unaccepted milder.

    Without cases or records, the cases that came with the tool are compared.

    Example: borewright rules compare shipped our-rules --cases bench/2026
    """
    from recommender.trials.books import book_named
    from recommender.trials.compare import compare_cases, joined
    from recommender.trials.compare_records import compare_records

    books = book_named(old), book_named(new)
    parts = [compare_records(records, *books)] if records else []
    if cases or not records:
        parts.append(compare_cases(_folders(cases), *books))
    found = joined(parts)
    _print_comparison(found, form)
    if found.unaccepted or found.unjudged:
        raise typer.Exit(EXIT_FLAWED)


@app.command("coverage")
def coverage(house: House = None, cases: Cases = None) -> None:
    """Print every comparison, and row of a grid, that no example or case has shown, also close to its limit.

    Example: borewright rules coverage --cases bench/2026
    """
    from recommender.account.coverage_text import coverage_lines
    from recommender.account.terminal import print_lines
    from recommender.trials.case_facts import derived_cases
    from recommender.trials.coverage import coverage as covered
    from recommender.trials.grid_coverage import grid_coverage

    books = books_for(house)
    derived = derived_cases(cases or [], books.on)
    covers = covered(books.undated, derived)
    rows = grid_coverage(books.undated, derived)
    print_lines(coverage_lines(covers, rows, len(derived)))
    if any(each.missing for each in covers) or any(each.missing for each in rows):
        raise typer.Exit(EXIT_FLAWED)


@app.command("schema")
def schema(
    house: House = None,
    write: Annotated[bool, typer.Option("--write", help="Write the files instead of naming them.")] = False,
    to: Annotated[
        Path | None, typer.Option("--to", help="Folder they are in; else `schemas` in that of the rules.")
    ] = None,
) -> None:
    """Say which JSON Schemas of rule, house and case files are out of date, or write them for editors to complete by.

    Example: borewright rules schema --write --to our-rules/schemas --house our-rules
    """
    from recommender.reading.shipped import shipped_rules

    folder = to or (house or shipped_rules()) / "schemas"
    if write:
        _write_schemas(folder, house)
        return
    old = _stale_schemas(folder, house)
    typer.echo(f"out of date in {folder}: {', '.join(old)}" if old else f"up to date in {folder}")
    if old:
        raise typer.Exit(EXIT_FLAWED)


@app.command("start")
def start(
    folder: Annotated[Path, typer.Argument(metavar="DIR", help="Folder to make; it must not hold rules yet.")],
) -> None:
    """Write a small commented house folder: one changed limit, one added rule, one added part.

    Example: borewright rules start our-rules
    """
    from recommender.reading.files import write_atomically
    from recommender.rulebook.starter import starter_files

    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise typer.BadParameter(f"`{folder}` is there already and is not empty", param_hint="DIR")
    folder.mkdir(parents=True, exist_ok=True)
    for name, text in starter_files(books_for(None).undated, date.today()).items():
        write_atomically(folder / name, text)
        typer.echo(f"wrote {folder / name}")
    _write_schemas(folder / "schemas", folder)
    typer.echo(f"Next: borewright rules check --house {folder}")


def _print_page(check_id: str) -> None:
    from recommender.account.rules_text import page_lines
    from recommender.account.terminal import print_lines
    from recommender.checking.pages import check_ids, page_of
    from recommender.ground.suggest import did_you_mean

    page = page_of(check_id)
    if page is None:
        advice = did_you_mean(check_id, check_ids())
        raise typer.BadParameter(f"there is no check `{check_id}`. {advice}", param_hint="--about")
    print_lines(page_lines(check_id, page))


def _print_flaws(form: Form, found: "Checked") -> None:
    from recommender import ENGINE
    from recommender.account.book_text import checked_line
    from recommender.account.flaw_text import counted, flaws_json
    from recommender.account.sarif import sarif
    from recommender.checking.pages import page_of
    from recommender.cli.guard import say

    if form is not Form.TEXT:
        typer.echo(flaws_json(found.flaws) if form is Form.JSON else sarif(found.flaws, page_of, ENGINE.split()[-1]))
        return
    shown = [each for each in found.flaws if each.level != "note"]
    for each in shown:
        say(str(each))
    if shown:
        say(counted(shown))
    if not found.errors and found.book is not None:
        typer.echo(checked_line(found.book))


def _print_comparison(found: "Comparison", form: PlainForm) -> None:
    import json

    from recommender.account.compare_text import comparison_data, comparison_lines
    from recommender.account.terminal import print_lines

    if form is PlainForm.JSON:
        typer.echo(json.dumps(comparison_data(found), indent=2))
    else:
        print_lines(comparison_lines(found))


def _write_schemas(folder: Path, house: Path | None) -> None:
    from recommender.reading.files import write_atomically
    from recommender.rulebook.schema import schemas

    folder.mkdir(parents=True, exist_ok=True)
    for name, text in schemas(books_for(house).undated).items():
        write_atomically(folder / name, text)
        typer.echo(f"wrote {folder / name}")


def _stale_schemas(folder: Path, house: Path | None) -> list[str]:
    from recommender.rulebook.schema import stale

    def read(name: str) -> str | None:
        path = folder / name
        return path.read_text("utf-8") if path.is_file() else None

    return sorted(stale(books_for(house).undated, read))


def _folders(cases: list[Path] | None) -> list[Path]:
    from recommender.reading.shipped import shipped_cases

    return cases or [shipped_cases()]


def _day(text: str | None) -> date | None:
    from recommender.reading.types import iso_date

    try:
        return None if text is None else iso_date(text)
    except ValueError as error:
        raise typer.BadParameter(str(error), param_hint="--on") from None
