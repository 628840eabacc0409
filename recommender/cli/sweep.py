"""`borewright sweep`: many cases at once, one line of JSON each."""

import sys
from functools import partial
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from recommender.cli.guard import EXIT_CANNOT_JUDGE, say
from recommender.cli.house import Books, House, books_for

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from recommender.trials.dated_books import DatedBooks
    from recommender.trials.many_items import Where
    from recommender.trials.many_summary import Summary

    JudgeBy = Callable[[DatedBooks, Iterable[Where]], Iterator[str]]

EXIT_BAD_CASE = 1
BAR, WIDTH = 40, 79
Cases = Annotated[
    list[Path],
    typer.Argument(metavar="CASES...", help="Folders, case files, or .ndjson with a case a line.", show_default=False),
]
Out = Annotated[
    Path | None,
    typer.Option("--out", metavar="FILE", help="Write the lines here; an interrupted sweep is continued.",
                 show_default=False),
]  # fmt: skip
Jobs = Annotated[
    int | None,
    typer.Option("--jobs", min=1, max=256, help="How many processes judge at the same time, else one for each core.",
                 show_default=False),
]  # fmt: skip
Cluster = Annotated[
    str | None,
    typer.Option("--cluster", metavar="ADDRESS", help="Judge on the workers of a dask scheduler, such as "
                 "tcp://host:8786; they read the cases and rules from the same paths.", show_default=False),
]  # fmt: skip


def sweep_cases(
    cases: Cases, out: Out = None, jobs: Jobs = None, cluster: Cluster = None, house: House = None
) -> None:
    """Judge many cases, one line of JSON for each in the order given; a bad case does not stop the others.

    Example: borewright sweep bench/2026 --out sweep.ndjson --jobs 4
    """
    from concurrent.futures.process import BrokenProcessPool

    if cluster is not None:
        _need_dask()
    books = books_for(house)
    try:
        summary = _swept(cases, out, partial(_judge, jobs, cluster), house)
    except BrokenProcessPool:
        say("a process that judged cases was ended from outside; run the same command again to go on.")
        raise typer.Exit(EXIT_CANNOT_JUDGE) from None
    _tell_end(summary, books)
    if summary.not_judged:
        raise typer.Exit(EXIT_BAD_CASE)


def _need_dask() -> None:
    if find_spec("distributed") is None:
        say("judging on a cluster needs dask.distributed, not installed here [sweep.extra]\n"
            "      Install the extra: pip install 'borewright[cluster]'")  # fmt: skip
        raise typer.Exit(EXIT_CANNOT_JUDGE)


def _judge(jobs: int | None, cluster: str | None, books: "DatedBooks", cases: "Iterable[Where]") -> "Iterator[str]":
    from recommender.trials.many_cases import cores, judged_lines

    if cluster is None:
        return judged_lines(cases, books, cores() if jobs is None else jobs)
    from recommender.trials.many_machines import judged_by_cluster

    return judged_by_cluster(cases, books, cluster)


def _swept(cases: list[Path], out: Path | None, judge: "JudgeBy", house: Path | None) -> "Summary":
    from recommender.trials.dated_books import DatedBooks
    from recommender.trials.many_cases import sweep_into
    from recommender.trials.many_items import places
    from recommender.trials.many_summary import Summary

    books = DatedBooks(house)
    if out is not None:
        return sweep_into(out, places(cases), partial(judge, books), books.stamp, _progress(cases))
    summary = Summary()
    for line in judge(books, places(cases)):
        typer.echo(line)
        summary.count(line)
    return summary


def _progress(cases: list[Path]) -> "Progress | None":
    from recommender.trials.many_items import count_items

    return Progress(count_items(cases)) if sys.stderr.isatty() else None


class Progress:
    """Shows on a terminal how many cases are done, as a bar on one line that is written over."""

    def __init__(self, total: int) -> None:
        """Begin with nothing done of `total`."""
        self._total = max(1, total)

    def __call__(self, count: int) -> None:
        """Show the count."""
        done = min(BAR, BAR * count // self._total)
        bar = "#" * done + "." * (BAR - done)
        typer.echo(f"\r[{bar}] {count} of {self._total} cases", nl=False, err=True)


def _tell_end(summary: "Summary", books: Books) -> None:
    from recommender.account.sweep_text import summary_lines
    from recommender.account.terminal import print_lines

    if sys.stderr.isatty():
        typer.echo("\r" + " " * WIDTH + "\r", nl=False, err=True)
    print_lines(summary_lines(summary, books.damage_notice), err=True)
