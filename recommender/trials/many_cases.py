"""Many cases at once: each judged for itself, in the order given, by any number of processes."""

import os
import signal
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Future, ProcessPoolExecutor
from functools import cache
from itertools import islice
from multiprocessing import get_context, parent_process
from pathlib import Path
from threading import Thread

from recommender.ground.flaw import Flaw, Flawed
from recommender.ground.place import whole_file
from recommender.trials.dated_books import DatedBooks
from recommender.trials.many_items import Item
from recommender.trials.many_lines import line_of
from recommender.trials.many_output import lines_there, opened_alone
from recommender.trials.many_summary import Summary

EDITED = Flaw(
    "sweep.rules", whole_file("rules"), "the rules were edited while the sweep was running",
    "Wait until they are as they shall be; then sweep into a new file.",
)  # fmt: skip
CHUNK = 4
AHEAD = 3
Judge = Callable[[Iterable[Item]], Iterator[str]]
Tell = Callable[[int], None]


class _RulesEdited(Exception):
    """Raised by a worker that finds other rules than those the sweep was started with."""


def judged_lines(cases: Iterable[Item], books: DatedBooks, jobs: int = 1) -> Iterator[str]:
    """Yield the line of each case in the order given; the same lines for any number of processes.

    Raises Flawed when the rules are edited meanwhile, and BrokenProcessPool when a process was ended from outside.
    """
    if jobs == 1:
        yield from (line_of(each, books) for each in cases)
        return
    with ProcessPoolExecutor(jobs, get_context("spawn"), _prepare) as pool:
        waiting: deque[Future[list[str]]] = deque()
        try:
            for chunk in _chunks(cases):
                waiting.append(pool.submit(_judge, chunk, books.house, books.rules, books.stamp))
                if len(waiting) >= jobs * AHEAD:
                    yield from waiting.popleft().result()
            while waiting:
                yield from waiting.popleft().result()
        except _RulesEdited:
            raise Flawed([EDITED]) from None
        finally:
            for each in waiting:
                each.cancel()


def sweep_into(path: Path, cases: Iterator[Item], judge: Judge, stamp: str, tell: Tell | None = None) -> Summary:
    """Judge cases into a file, one line each, and return the summary of all its lines.

    A file that an interrupted sweep of the same cases by the same rules left behind is continued after its last whole
    line; `stamp` is that of the rules, `judge` gives the lines of cases, `tell` is told how many lines there are.
    Raises Flawed when the file holds anything else.
    """
    summary = Summary()
    with opened_alone(path) as out:
        for line in lines_there(out, path, cases, stamp):
            summary.count(line)
        for line in judge(cases):
            out.write(line.encode("utf-8") + b"\n")
            out.flush()
            summary.count(line)
            if tell is not None:
                tell(summary.cases)
        os.fsync(out.fileno())
    return summary


@cache
def _books(house: Path | None, rules: Path | None) -> DatedBooks:
    return DatedBooks(house, rules)


def _judge(chunk: list[Item], house: Path | None, rules: Path | None, stamp: str) -> list[str]:
    try:
        books = _books(house, rules)
    except Flawed:
        raise _RulesEdited from None
    if books.stamp != stamp:
        raise _RulesEdited
    return [line_of(each, books) for each in chunk]


def _chunks(cases: Iterable[Item]) -> Iterator[list[Item]]:
    rest = iter(cases)
    while chunk := list(islice(rest, CHUNK)):
        yield chunk


def _prepare() -> None:
    """Ready a worker: an interrupt is the business of the process that started it, and it ends with that one."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    parent = parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)
