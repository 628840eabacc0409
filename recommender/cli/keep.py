"""Keeps advice given on the command line, reads it again, and tells what a second round settled."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from recommender.cli.guard import say
from recommender.ground.flaw import Flawed

if TYPE_CHECKING:
    from recommender.account.lines import Line
    from recommender.bench.load import LoadedCase
    from recommender.deciding.answer import Advice
    from recommender.rulebook.book import Rulebook

Keep = Annotated[
    Path | None,
    typer.Option("--keep", metavar="DIR", help="Keep a record of each answer in this folder.", show_default=False),
]
Kept = Annotated[
    Path | None,
    typer.Option("--kept", metavar="DIR", help="Folder of the record this case follows, if not its own.",
                 show_default=False),
]  # fmt: skip
NOT_KEPT = "The answer was given, but no record of it was kept."


def keep_advice(loaded: "LoadedCase", advice: "Advice", book: "Rulebook", folder: Path) -> bool:
    """Keep the record of an advice in a folder and say where, or why not; return whether it is kept.

    A case that follows a record the folder does not hold is kept all the same, with a word about it.
    """
    from recommender.records.record import record_of
    from recommender.records.store import keep

    try:
        path = keep(record_of(loaded, advice, book), folder)
        _earlier(advice, folder)
    except Flawed as found:
        say(f"{found}\n{NOT_KEPT}")
        return False
    say(f"kept: {path}")
    return True


def kept_advice(path: Path) -> "Advice":
    """Return the advice in a record; raises Flawed when it cannot be relied on."""
    from recommender.records.restore import advice_from
    from recommender.records.store import read_record

    return advice_from(read_record(path).content.advice)


def since_earlier(advice: "Advice", folder: Path) -> list["Line"]:
    """Return what was settled since the record an advice follows; nothing when it follows none that is there.

    Raises Flawed when that record was changed.
    """
    from recommender.account.records_text import settled_lines
    from recommender.deciding.answer import as_data
    from recommender.records.settled import settled

    found = _earlier(advice, folder)
    return [] if found is None else settled_lines(settled(found, as_data(advice)), advice.case.follows or "")


def _earlier(advice: "Advice", folder: Path) -> dict[str, object] | None:
    from recommender.records.store import earlier_round

    follows = advice.case.follows
    record = earlier_round(follows, folder)
    if follows is not None and record is None:
        say(f"{advice.case.id} follows `{follows}`, which is not kept in {folder}")
    return None if record is None else record.content.advice
