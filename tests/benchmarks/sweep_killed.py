"""A sweep of 10,000 cases, killed at random and resumed, against an undisturbed one: the two files must be the same.

`python tests/benchmarks/sweep_killed.py [--cases 10000] [--kills 10] [--jobs 2]`; about an hour of one core for the
full run. The suite keeps a smaller one (`tests/trials/test_many_cases.py`).
"""

import argparse
import json
import os
import random
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from recommender.reading.shipped import shipped_cases  # noqa: E402
from recommender.reading.yaml_reader import read_text  # noqa: E402
from recommender.trials.run_cases import case_files  # noqa: E402

ENVIRONMENT = {**os.environ, "PYTHONPATH": str(ROOT)}


def write_cases(path: Path, count: int) -> None:
    """Write so many cases, one a line: the shipped ones over and over, each under an id of its own."""
    shipped = [read_text(each.read_text("utf-8"), each.name).data for each in case_files(shipped_cases())]
    with path.open("w", encoding="utf-8") as out:
        for number in range(count):
            case = shipped[number % len(shipped)]
            out.write(json.dumps({**case, "case": f"sweep-{number}"}, default=str) + "\n")


def command(cases: Path, out: Path, jobs: int) -> list[str]:
    """Return the sweep of a file of cases into another."""
    return [sys.executable, "-m", "recommender", "sweep", str(cases), "--out", str(out), "--jobs", str(jobs)]


def undisturbed(cases: Path, out: Path, jobs: int) -> float:
    """Sweep to the end and return the seconds it took."""
    start = time.monotonic()
    subprocess.run(command(cases, out, jobs), env=ENVIRONMENT, stderr=subprocess.DEVNULL, check=False)
    return time.monotonic() - start


def killed(cases: Path, out: Path, jobs: int, kills: int, seconds: float) -> int:
    """Sweep and kill at random moments while it writes, then to the end; return how often it was still running."""
    moments, told = random.Random(2041), 0
    for _ in range(kills):
        before = _size(out)
        run = subprocess.Popen(command(cases, out, jobs), env=ENVIRONMENT, stderr=subprocess.DEVNULL)
        while run.poll() is None and _size(out) <= before:
            time.sleep(0.02)
        time.sleep(moments.uniform(0.0, 1.0) * seconds / (2 * kills))
        told += run.poll() is None
        run.kill()
        run.wait()
        lines = out.read_bytes().count(b"\n") if out.exists() else 0
        print(f"killed after {lines} lines", flush=True)  # noqa: T201
    undisturbed(cases, out, jobs)
    return told


def _size(path: Path) -> int:
    return path.stat().st_size if path.exists() else 0


def main() -> int:
    """Run both and compare."""
    parser = argparse.ArgumentParser(description=__doc__)
    for name, value in (("--cases", 10_000), ("--kills", 10), ("--jobs", 2)):
        parser.add_argument(name, type=int, default=value)
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        cases, whole, cut = (Path(folder) / name for name in ("cases.ndjson", "whole.ndjson", "cut.ndjson"))
        write_cases(cases, given.cases)
        seconds = undisturbed(cases, whole, given.jobs)
        told = killed(cases, cut, given.jobs, given.kills, seconds)
        same = whole.read_bytes() == cut.read_bytes()
        lines = whole.read_bytes().count(b"\n")
        print(f"{lines} lines in {seconds:.0f} s; killed {told} times while running; same bytes: {same}")  # noqa: T201
        return 0 if same and lines == given.cases else 1


if __name__ == "__main__":
    sys.exit(main())
