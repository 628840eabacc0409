"""`borewright plan`: which readings to take, or which one next."""

from collections.abc import Iterable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from recommender.cli.guard import EXIT_CANNOT_JUDGE
from recommender.cli.house import Books, House, books_for

if TYPE_CHECKING:
    from recommender.asking.next_reading import NextStep
    from recommender.bench.instruments import Instrument
    from recommender.bench.sheets import BenchSheet, SheetRow
    from recommender.rulebook.book import Rulebook

SEAT, DEEPEST = "10 mm", 100.0
Case = Annotated[
    Path | None, typer.Argument(metavar="CASE", help="A case file; else a plan for a shell.", show_default=False)
]
OfStandard = Annotated[str | None, typer.Option("--standard", help="Shell standard.", show_default=False)]
OfMaterial = Annotated[str | None, typer.Option("--material", help="Material of the shell.", show_default=False)]
AtHand = Annotated[
    list[str] | None,
    typer.Option("--instrument", metavar="KIND[:ERROR_LIMIT]", help="An instrument at hand; may be given again.",
                 show_default=False),
]  # fmt: skip
Depth = Annotated[str | None, typer.Option("--seat-depth", help=f"Depth of the seat, else {SEAT}.", show_default=False)]
Sheet = Annotated[
    Path | None, typer.Option("--to", metavar="FILE.csv", help="Write the bench sheet here too.", show_default=False)
]


def plan_readings(
    case: Case = None, standard: OfStandard = None, material: OfMaterial = None, instrument: AtHand = None,
    seat_depth: Depth = None, to: Sheet = None, house: House = None,
) -> None:  # fmt: skip
    """Say what to read next for a case and how likely that settles it; without a case, which readings to take at all.

    Example: borewright plan bench/kiln-2014.yaml

    Example: borewright plan --standard pf30 --material carbon --instrument "three_point_micrometer:4 um"
    --instrument two_point_gauge --to sheet.csv
    """
    of_shell = {"--standard": standard, "--material": material, "--instrument": instrument, "--seat-depth": seat_depth}
    if case is not None:
        given = [name for name, value in of_shell.items() if value]
        if given:
            raise typer.BadParameter("a case says this itself; leave it out, or leave out CASE", param_hint=given[0])
        _for_case(case, books_for(house, [case]), to)
        return
    for name in ("--standard", "--material", "--instrument"):
        if not of_shell[name]:
            raise typer.BadParameter("a plan without CASE needs it", param_hint=name)
    _for_shell(books_for(house).undated, standard or "", material or "", instrument or [], seat_depth or SEAT, to)


def _for_case(case: Path, books: Books, to: Path | None) -> None:
    from recommender.cli.trouble import or_flaws

    if or_flaws(partial(_next, case, books, to), case, books.damage_notice) is None:
        raise typer.Exit(EXIT_CANNOT_JUDGE)


def _next(case: Path, books: Books, to: Path | None) -> bool:
    from recommender.account.plan_text import next_lines
    from recommender.account.terminal import print_lines
    from recommender.asking.next_reading import next_readings
    from recommender.bench.sheets import BenchSheet
    from recommender.cli.advise import judged

    found = judged(case, books)
    steps = next_readings(found.loaded, found.book)
    print_lines(next_lines(found.advice, steps))
    _write(BenchSheet(found.loaded.case.case, tuple(_rows(steps))), to)
    return True


def _rows(steps: "Iterable[NextStep]") -> "Iterable[SheetRow]":
    """Yield the rows of the likeliest readings of each side."""
    from recommender.asking.plan import planned_rows

    first = {each.side: each for each in reversed(list(steps)) if each.side is not None and each.readings}
    for side in sorted(first):
        yield from planned_rows(side, first[side].readings, first[side].full_turns)


def _for_shell(
    book: "Rulebook", standard: str, material: str, instruments: list[str], seat_depth: str, to: Path | None
) -> None:
    from recommender.account.plan_text import plan_lines
    from recommender.account.terminal import print_lines
    from recommender.asking.plan import plan_for, rows_of

    pressed = [each.id for each in book.standards.values() if each.kind != "threaded"]
    _known(standard, pressed, "shell standard something is pressed into", "--standard")
    _known(material, book.words["materials"], "material of a shell", "--material")
    at_hand = _instruments(instruments, book)
    try:
        plan = plan_for(standard, material, at_hand, book, _length(seat_depth, "--seat-depth", DEEPEST))
    except ValueError as refused:
        raise typer.BadParameter(str(refused), param_hint="--instrument") from None
    print_lines(plan_lines(plan, at_hand, book))
    _write(rows_of(plan), to)


def _instruments(texts: list[str], book: "Rulebook") -> "list[Instrument]":
    """Return the instruments at hand, named by their kind, further ones of a kind numbered."""
    from recommender.bench.instruments import Instrument

    found: list[Instrument] = []
    for text in texts:
        kind, _, limit = (each.strip() for each in text.partition(":"))
        _known(kind, book.instruments, "kind of instrument", "--instrument")
        count = sum(each.kind == kind for each in found)
        named = {"id": f"{kind}_{count + 1}" if count else kind, "kind": kind}
        error = {"error_limit": f"{_length(limit, '--instrument', 1.0)} mm"} if limit else {}
        found.append(Instrument.model_validate({**named, **error}))
    return found


def _known(word: str, known: Iterable[str], what: str, option: str) -> None:
    from recommender.ground.suggest import did_you_mean

    if word not in (listed := list(known)):
        raise typer.BadParameter(f"`{word}` is no {what} known here. {did_you_mean(word, listed)}", param_hint=option)


def _length(text: str, option: str, largest: float) -> float:
    """Return a length in mm, above nothing and not above `largest`."""
    from recommender.ground.quantity import parse

    try:
        length = parse(text).to("mm")
    except ValueError as refused:
        raise typer.BadParameter(f"{refused}; give a length with its unit, like `10 mm` or `4 um`",
                                 param_hint=option) from None
    if not 0 < length <= largest:
        raise typer.BadParameter(f"`{text}` must be above 0 and at most {largest:g} mm", param_hint=option)
    return length


def _write(sheet: "BenchSheet", to: Path | None) -> None:
    from recommender.bench.sheets import write_sheet
    from recommender.cli.guard import say
    from recommender.reading.files import write_atomically

    if to is None:
        return
    if not sheet.rows:
        say(f"there are no readings to take, so {to} was not written")
        return
    write_atomically(to, write_sheet(sheet))
    say(f"wrote {to}")
