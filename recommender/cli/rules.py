"""`borewright rules`: the rule book looked at and checked."""

from typing import Annotated

import typer

from recommender.cli.house import House, books_for

app = typer.Typer(no_args_is_help=True, rich_markup_mode=None, help="Look at the rule book and check it.")
EXIT_FLAWED = 1


@app.command("check")
def check(house: House = None) -> None:
    """Load the shipped rules and those of the house, and print every flaw found in them.

    Example: borewright rules check --house our-rules
    """
    from recommender.account.book_text import checked_line
    from recommender.cli.guard import say
    from recommender.ground.flaw import Flawed
    from recommender.rulebook.load import load

    try:
        book = load(house)
    except Flawed as found:
        for each in found.flaws:
            say(str(each))
        raise typer.Exit(EXIT_FLAWED) from None
    typer.echo(checked_line(book))


@app.command("facts")
def facts() -> None:
    """List every fact a rule may ask about, with scope and unit.

    Example: borewright rules facts
    """
    from recommender.account.book_text import fact_lines
    from recommender.account.terminal import print_lines

    print_lines(fact_lines())


@app.command("limits")
def limits(house: House = None) -> None:
    """List every limit in force, with its value, safe side and source.

    Example: borewright rules limits --house our-rules
    """
    from recommender.account.book_text import limit_lines
    from recommender.account.terminal import print_lines

    print_lines(limit_lines(books_for(house).undated))


@app.command("show")
def show(
    name: Annotated[str, typer.Argument(metavar="ID", help="A fact, limit, rule, remedy, part or standard.")],
    house: House = None,
) -> None:
    """Show one entry of the rule book or of the catalogue of facts.

    Example: borewright rules show polymer_cup.bar_low
    """
    from recommender.account.book_text import entry_lines, known_ids
    from recommender.account.terminal import print_lines
    from recommender.ground.suggest import did_you_mean

    book = books_for(house).undated
    lines = entry_lines(name, book)
    if not lines:
        raise typer.BadParameter(f"`{name}` is not known here. {did_you_mean(name, known_ids(book))}", param_hint="ID")
    print_lines(lines)
