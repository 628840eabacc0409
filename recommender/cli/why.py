"""`borewright why`: how a decision came about, down to the readings."""

from collections.abc import Iterable, Sequence
from enum import StrEnum
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, NamedTuple

import typer

from recommender.cli.guard import EXIT_CANNOT_JUDGE
from recommender.cli.house import Books, House, books_for
from recommender.cli.inches import Inches
from recommender.cli.keep import Kept, kept_advice, since_earlier
from recommender.cli.quick import Quick

if TYPE_CHECKING:
    from recommender.account.lines import Line
    from recommender.cli.advise import Judged
    from recommender.cli.kept_case import KeptCase
    from recommender.deciding.answer import Advice


class Side(StrEnum):
    """The two sides of a shell."""

    drive = "drive"
    non_drive = "non_drive"


class Asked(NamedTuple):
    """What is asked: one side or both, one remedy or all, one fact, one rule, and how far down to walk."""

    side: str | None
    remedy: str | None
    fact: str | None
    rule: str | None
    depth: int | None


class Source(NamedTuple):
    """An advice, and the case and book it can be judged by again, None where they are not at hand as they were."""

    advice: "Advice"
    judged: "Judged | KeptCase | None"


Case = Annotated[Path, typer.Argument(metavar="CASE|RECORD", help="A case file, or a kept record.", show_default=False)]
OneSide = Annotated[Side | None, typer.Option("--side", help="Only this side.", show_default=False)]
OneRemedy = Annotated[str | None, typer.Option("--remedy", help="Only this remedy, in full.", show_default=False)]
OneFact = Annotated[
    str | None,
    typer.Option("--fact", metavar="ID", help="One fact: its value, what asked it, the walk down from it.",
                 show_default=False),
]  # fmt: skip
OneRule = Annotated[
    str | None,
    typer.Option("--rule", metavar="ID", help="One rule: what became of it, with every margin.", show_default=False),
]
Depth = Annotated[
    int | None,
    typer.Option("--depth", min=0, metavar="N", help="Walk down so many steps; else to the readings.",
                 show_default=False),
]  # fmt: skip
Budget = Annotated[
    bool, typer.Option("--budget", help="The uncertainty budget of each side's mean diameter, and what it can decide.")
]  # fmt: skip


def why_case(
    case: Case, side: OneSide = None, remedy: OneRemedy = None, fact: OneFact = None, rule: OneRule = None,
    depth: Depth = None, budget: Budget = False, quick: Quick = False, inches: Inches = False,
    house: House = None, kept: Kept = None,
) -> None:  # fmt: skip
    """Say why each side was decided so: what stopped every other remedy, by how much, and on which readings.

    For each remedy that lost, the nearest change of bore, part or knowledge that would clear it is found by judging
    the case again.

    Example: borewright why bench/kiln-2014.yaml --side drive --remedy press_as_is

    Example: borewright why bench/kiln-2014.yaml --fact bore.ovality --depth 2

    Example: borewright why bench/kiln-2014.yaml --budget
    """
    from recommender.account.inches import also_in_inches
    from recommender.account.terminal import print_lines

    books = books_for(house, [case])
    source = _source(case, books, kept)
    asked = Asked(None if side is None else side.value, remedy, fact, rule, depth)
    _check_words(asked, source.advice)
    with also_in_inches(inches):
        print_lines(_budget(source, asked.side) if budget else _lines(source, asked, quick))
    if budget:
        return
    if fact is None and rule is None:
        print_lines(since_earlier(source.advice, case.parent if kept is None else kept))


def _lines(source: Source, asked: Asked, quick: bool) -> Sequence["Line"]:
    from recommender.account.answer_text import stop_riding_lines
    from recommender.account.asked_text import fact_lines, rule_lines
    from recommender.account.nearest_text import nearest_texts
    from recommender.account.why_text import why_lines
    from recommender.asking.nearest import lost_remedies

    advice, narrowed = source.advice, (asked.side, asked.remedy, asked.depth)
    if asked.fact is not None or asked.rule is not None:
        return [
            *stop_riding_lines(advice),
            *(fact_lines(advice, asked.fact, *narrowed) if asked.fact is not None else []),
            *(rule_lines(advice, asked.rule, *narrowed) if asked.rule is not None else []),
        ]
    known = None if quick else source.judged
    lost = () if known is None else lost_remedies(known.loaded, advice, known.book, asked.side, asked.remedy)
    return why_lines(advice, asked.side, asked.remedy, nearest_texts(lost), asked.depth)


def _budget(source: Source, side: str | None) -> Sequence["Line"]:
    from recommender.account.answer_text import stop_riding_lines
    from recommender.account.budget_text import budget_lines
    from recommender.asking.side_budgets import side_budgets

    known = source.judged
    if known is None:
        raise typer.BadParameter("this record was judged by other rules; name the case file", param_hint="--budget")
    found = side_budgets(known.loaded, known.book)
    asked = {name: each for name, each in found.items() if side in (None, name)}
    return [*stop_riding_lines(source.advice), *budget_lines(source.advice.case.id, asked)]


def _check_words(asked: Asked, advice: "Advice") -> None:
    from recommender.account.asked_text import facts_known, rules_known

    remedies = [each.id for each in advice.sides["drive"].remedies]
    _known(asked.remedy, remedies, "remedy", "")
    _known(asked.fact, facts_known(advice), "fact of this case", " `borewright rules facts` lists them.")
    _known(asked.rule, rules_known(advice), "rule that was run here", " `borewright rules show rules` lists them.")


def _known(word: str | None, known: Iterable[str], what: str, listed: str) -> None:
    from recommender.ground.suggest import did_you_mean

    listing = list(known)
    if word is not None and word not in listing:
        hint = f"--{what.split()[0]}"
        raise typer.BadParameter(f"`{word}` is no {what}. {did_you_mean(word, listing)}{listed}", param_hint=hint)


def _source(case: Path, books: Books, kept: Path | None) -> Source:
    from recommender.cli.advise import judged
    from recommender.cli.trouble import or_flaws
    from recommender.records.store import is_record

    if is_record(case):
        return _of_record(case, books)
    found = or_flaws(partial(judged, case, books, kept), case, books.damage_notice)
    if found is None:
        raise typer.Exit(EXIT_CANNOT_JUDGE)
    return Source(found.advice, found)


def _of_record(path: Path, books: Books) -> Source:
    """Return the advice of a record, with its case where that is still judged by the same book."""
    from recommender.cli.kept_case import kept_case
    from recommender.ground.flaw import Flawed

    advice = kept_advice(path)
    try:
        kept = kept_case(path, books)
    except Flawed:
        return Source(advice, None)
    return Source(advice, kept if kept.same_book else None)
