"""Many cases: what each costs, what a second process gives, and that memory does not grow with their number."""

import json
import re
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from statistics import median

import numpy as np
from ratios import Ratio, compiled, in_turn

from recommender.bench.load import load_case
from recommender.deriving.draws_of import scores
from recommender.reading.shipped import shipped_cases
from recommender.reading.yaml_reader import read_file
from recommender.records.case_text import load_case_text
from recommender.trials.dated_books import DatedBooks
from recommender.trials.many_cases import judged_lines
from recommender.trials.many_items import places, read_item

ROOT = Path(__file__).resolve().parents[2]
WHOLE = ("proceed/lane-2041", "proceed/acorn-2116", "refuse/gate-2021", "measure_again/barn-2050")
CRACKED = "refuse/hill-2036"
WALL = 400  # some 20 s of work for each process, beside which its start of half a second does not tell
PEAK = re.compile(r"VmHWM:\s+(\d+) kB")


def many(runs: int, cases: int) -> Iterator[Ratio]:
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        yield _each(folder, runs)
        yield _wall(folder, min(runs, 3))
        yield _memory(folder, cases)


def _each(folder: Path, runs: int) -> Ratio:
    path = _written(folder / "each.ndjson", WHOLE, len(WHOLE))
    books, chance = DatedBooks(None), np.random.default_rng(1)
    texts = [read_item(each) for each in places([path])]

    def least() -> None:
        for each in texts:
            load_case_text(each.text, each.file)
            chance.standard_normal((2, *scores().shape))

    ours, other = in_turn(lambda: list(judged_lines(places([path]), books)), least, runs)
    per_case = [each / len(WHOLE) * 1e3 for each in (ours, other)]
    return Ratio("sweep, a case / reading it and drawing its normals", *per_case, "ms", most=8.0)


def _wall(folder: Path, runs: int) -> Ratio:
    path = _written(folder / "wall.ndjson", WHOLE, WALL)
    _sweep(_written(folder / "first.ndjson", WHOLE, len(WHOLE)), 1)
    times = [[_seconds(path, jobs) for jobs in (1, 2)] for _ in range(runs)]
    one, two = (median(each[at] for each in times) for at in (0, 1))
    return Ratio("sweep, one process / two, by the clock", one, two, "s", least=1.6)


def _seconds(path: Path, jobs: int) -> float:
    start = time.perf_counter()
    _sweep(path, jobs)
    return time.perf_counter() - start


def _memory(folder: Path, cases: int) -> Ratio:
    peaks = []
    for count in (cases, cases // 10):
        path = _written(folder / f"{count}.ndjson", (CRACKED,), count)
        peaks.append(_sweep(path, 1) / 1024)
    return Ratio("peak memory of a sweep / of one through a tenth of the cases", *peaks, "MiB", most=1.1)


def _sweep(path: Path, jobs: int) -> int:
    """Sweep a file into another one and return the peak memory of the process in kB."""
    asked = f"app(['sweep', {str(path)!r}, '--out', {str(path) + '.out'!r}, '--jobs', '{jobs}'], standalone_mode=False)"
    code = f"from recommender.cli.app import app; {asked}; print(open('/proc/self/status').read())"
    Path(f"{path}.out").unlink(missing_ok=True)
    env = {**compiled(str(path.parent / "compiled")), "PYTHONPATH": str(ROOT)}
    done = subprocess.run([sys.executable, "-c", code], env=env, capture_output=True, text=True, check=True)
    found = PEAK.search(done.stdout)
    assert found is not None, done.stderr
    return int(found[1])


def _written(path: Path, names: tuple[str, ...], count: int) -> Path:
    """Write so many cases, a line each, made by turns from shipped ones under names of their own."""
    shipped = [read_file(shipped_cases() / f"{name}.yaml").data for name in names]
    for name in names:
        load_case(shipped_cases() / f"{name}.yaml")
    with path.open("w", encoding="utf-8") as opened:
        for number in range(count):
            data = shipped[number % len(shipped)]
            opened.write(json.dumps({**data, "case": f"{data['case']}-{number}"}, default=str) + "\n")
    return path
