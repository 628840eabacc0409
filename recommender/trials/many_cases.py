"""Many cases at once: each judged for itself, in the order given, by any number of processes."""

import os
import signal
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import ProcessPoolExecutor
from functools import cache, partial
from itertools import chain, islice
from multiprocessing import get_context, parent_process
from pathlib import Path
from threading import Thread
from typing import Protocol

from recommender.ground.flaw import Flaw, Flawed
from recommender.ground.garbage import collect_seldom
from recommender.ground.place import whole_file
from recommender.trials.dated_books import DatedBooks
from recommender.trials.many_items import Where, read_item
from recommender.trials.many_lines import line_of
from recommender.trials.many_output import lines_there, opened_alone
from recommender.trials.many_summary import Summary

EDITED = Flaw(
    "sweep.rules", whole_file("rules"), "the rules were edited while the sweep was running",
    "Wait until they are as they shall be; then sweep into a new file.",
)  # fmt: skip
CHUNK = 4
AHEAD = 3
Judge = Callable[[Iterable[Where]], Iterator[str]]
Tell = Callable[[int], None]


class Promise(Protocol):
    """The lines of a piece that somebody is judging."""

    def result(self) -> list[str]:
        """Return the lines once they are there."""

    def cancel(self) -> object:
        """Give up on them."""


class RulesEdited(Exception):
    """Raised by a worker that finds other rules than those the sweep was started with."""


def cores() -> int:
    """Return how many processors this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def judged_lines(cases: Iterable[Where], books: DatedBooks, jobs: int = 1) -> Iterator[str]:
    """Yield the line of each case in the order given; the same lines for any number of processes.

    The processes read the cases themselves. Raises Flawed when the rules are edited meanwhile, and BrokenProcessPool
    when a process was ended from outside.
    """
    pieces = chunks(cases)
    first = next(pieces, [])
    if jobs == 1 or len(first) < CHUNK:
        yield from (line_of(read_item(each), books) for each in chain(first, chain.from_iterable(pieces)))
        return
    with ProcessPoolExecutor(jobs, get_context("spawn"), _prepare) as pool:
        judge = partial(judged_chunk, house=books.house, rules=books.rules, stamp=books.stamp)
        yield from in_order(partial(pool.submit, judge), chain([first], pieces), jobs * AHEAD)


def in_order(
    submit: Callable[[list[Where]], "Promise"], pieces: Iterable[list[Where]], ahead: int
) -> Iterator[str]:
    """Yield the lines of all pieces in order, with no more than `ahead` of them handed out.

    Raises Flawed when whoever judges finds other rules than the sweep was started with.
    """
    waiting: deque[Promise] = deque()
    try:
        for piece in pieces:
            waiting.append(submit(piece))
            if len(waiting) >= ahead:
                yield from waiting.popleft().result()
        while waiting:
            yield from waiting.popleft().result()
    except RulesEdited:
        raise Flawed([EDITED]) from None
    finally:
        for each in waiting:
            each.cancel()


def sweep_into(path: Path, cases: Iterator[Where], judge: Judge, stamp: str, tell: Tell | None = None) -> Summary:
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


def judged_chunk(chunk: list[Where], house: Path | None, rules: Path | None, stamp: str) -> list[str]:
    """Return the lines of some cases, read here; raises RulesEdited where the rules are not those of the stamp."""
    try:
        books = _books(house, rules)
    except Flawed:
        raise RulesEdited from None
    if books.stamp != stamp:
        raise RulesEdited
    return [line_of(read_item(each), books) for each in chunk]


def chunks(cases: Iterable[Where]) -> Iterator[list[Where]]:
    """Yield the cases a few at a time, as they are handed to a process."""
    rest = iter(cases)
    while chunk := list(islice(rest, CHUNK)):
        yield chunk


def _prepare() -> None:
    """Ready a worker: an interrupt is the business of the process that started it, and it ends with that one."""
    collect_seldom()
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    parent = parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)
