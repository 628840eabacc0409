"""Start-up: whole processes against the least that a command with these libraries costs.

Both sides find their modules compiled, as everybody does from the second start on.
"""

import shutil
import sys
import tempfile
from collections.abc import Iterator, Mapping
from itertools import count
from pathlib import Path

from ratios import Ratio, compiled, instructions, processes

from recommender.reading.shipped import shipped_cases

ROOT = Path(__file__).resolve().parents[2]
FLOOR = "import typer, numpy; from pydantic import create_model; create_model('M', a=int)(a=1)"


def start_up(runs: int) -> Iterator[Ratio]:
    with tempfile.TemporaryDirectory() as scratch:
        yield from _help(runs, scratch)
        yield from _advise(runs, scratch)


def _env(scratch: str, cache: str = "kept") -> dict[str, str]:
    cached = {"XDG_CACHE_HOME": f"{scratch}/{cache}"}
    return {**compiled(f"{scratch}/compiled"), "PYTHONPATH": str(ROOT), "OPENBLAS_NUM_THREADS": "1", **cached}


def _help(runs: int, scratch: str) -> Iterator[Ratio]:
    command, floor = [sys.executable, "-m", "recommender", "--help"], [sys.executable, "-c", "import typer"]
    if shutil.which("valgrind"):
        ours, other = (instructions(each, _env(scratch)) / 1e6 for each in (command, floor))
        yield Ratio("--help / import typer, instructions", ours, other, "Minstr", most=1.15)
        return
    ours, other = processes(command, floor, runs, lambda: _env(scratch))
    yield Ratio("--help / import typer, processor time", ours * 1e3, other * 1e3, "ms", most=1.15)


def _advise(runs: int, scratch: str) -> Iterator[Ratio]:
    case = shipped_cases() / "proceed" / "lane-2041.yaml"
    command, floor = [sys.executable, "-m", "recommender", "advise", str(case)], [sys.executable, "-c", FLOOR]
    warm = processes(command, floor, runs, lambda: _env(scratch))
    yield Ratio("advise, kept book / typer, numpy and a model", warm[0] * 1e3, warm[1] * 1e3, "ms", most=1.5)
    numbers = count()

    def edited() -> Mapping[str, str]:
        return _env(scratch, str(next(numbers)))

    cold = processes(command, floor, runs, edited)
    yield Ratio("advise, rules just edited / typer, numpy and a model", cold[0] * 1e3, cold[1] * 1e3, "ms", most=2.2)
