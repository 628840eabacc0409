"""The virtual bench.

    python tests/virtual_bench run --frames 0:2000 --habits plan,one_turn     goes on where it stopped
    python tests/virtual_bench report                                         table and plots into the documentation
    python tests/virtual_bench show 41 --habit plan                           one frame: its case file and the judgement
"""

import argparse
import json
import sys
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from functools import lru_cache, partial
from pathlib import Path

from recommender.rulebook.book import Rulebook
from recommender.rulebook.load import load
from virtual_bench.frames import frame
from virtual_bench.habits import HABITS, measured
from virtual_bench.reporting import report
from virtual_bench.running import Line, judged, missing
from virtual_bench.writing import case_text

STORE = Path(__file__).with_name("frames.ndjson")


@lru_cache(maxsize=1)
def book() -> Rulebook:
    """Return the shipped rules, loaded once in each process."""
    return load()


def one(habits: tuple[str, ...], number: int) -> Line:
    """Return the line of one frame, for a process of a pool."""
    return judged(number, habits, book())


def run(numbers: range, habits: tuple[str, ...], store: Path, processes: int) -> None:
    """Judge every frame the store lacks, and write each line as soon as it is known."""
    left = list(missing(numbers, habits, store))
    with store.open("a", encoding="utf-8") as out:
        for done, line in enumerate(_lines(left, habits, processes), 1):
            out.write(json.dumps(line, sort_keys=True) + "\n")
            out.flush()
            if done % 100 == 0 or done == len(left):
                sys.stderr.write(f"{done} of {len(left)} frames\n")


def _lines(numbers: list[int], habits: tuple[str, ...], processes: int) -> Iterator[Line]:
    if processes == 1:
        yield from map(partial(one, habits), numbers)
        return
    with ProcessPoolExecutor(processes) as pool:
        yield from pool.map(partial(one, habits), numbers, chunksize=4)


def main(arguments: list[str]) -> int:
    """Do what the arguments say; return the exit status."""
    told = _parser().parse_args(arguments)
    if told.do == "run":
        first, last = (int(each) for each in told.frames.split(":"))
        run(range(first, last), tuple(told.habits.split(",")), told.store, told.processes)
    elif told.do == "show":
        made = frame(told.number, book())
        sys.stdout.write(case_text(made, measured(made, told.habit, book()), book()))
        sys.stdout.write(f"\n# {made}\n# {json.dumps(one((told.habit,), told.number), indent=1)}\n")
    else:
        sys.stdout.write(report(told.store))
    return 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    commands = parser.add_subparsers(dest="do", required=True)
    for name in ("run", "report", "show"):
        command = commands.add_parser(name)
        command.add_argument("--store", type=Path, default=STORE)
        if name == "run":
            command.add_argument("--frames", default="0:200")
            command.add_argument("--habits", default=",".join(HABITS))
            command.add_argument("--processes", type=int, default=1)
        if name == "show":
            command.add_argument("number", type=int)
            command.add_argument("--habit", default="plan", choices=list(HABITS))
    return parser
