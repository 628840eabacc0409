"""How long 1,000 kept records take to be compared under two rule books: `python tests/benchmarks/compare_records.py`.

One record is kept of each of a few shipped cases and each is read again until there are 1,000; nothing is cached
between two readings of a record but what the operating system keeps of its file.
"""

import sys
import tempfile
import time
from dataclasses import replace
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from recommender.advice import advise  # noqa: E402
from recommender.bench.load import load_case  # noqa: E402
from recommender.reading.shipped import shipped_cases  # noqa: E402
from recommender.records.record import record_of  # noqa: E402
from recommender.records.store import keep  # noqa: E402
from recommender.rulebook.book import Rulebook  # noqa: E402
from recommender.rulebook.load import load  # noqa: E402
from recommender.trials.compare_records import compare_records  # noqa: E402
from recommender.trials.run_cases import case_files  # noqa: E402

RECORDS, CASES = 1000, ("lane-2041", "bridge-2057", "crane-2082", "hill-2036")
# Taken out of the second book: a rule that fails in all cases, one that is open in some, one that decides a quarter.
LEFT_OUT = ("compound.paint-in-the-bore", "bearing.ring-stress", "evidence.ring-drifted")


def main() -> None:
    """Keep the records, compare them, print processor and wall time."""
    old = load()
    with tempfile.TemporaryDirectory() as folder:
        for path in case_files(shipped_cases()):
            if path.stem in CASES:
                loaded = load_case(path)
                keep(record_of(loaded, advise(loaded, old), old), Path(folder))
        kept = sorted(Path(folder).iterdir())
        paths = [kept[index % len(kept)] for index in range(RECORDS)]
        for name in LEFT_OUT:
            old.rule(name)
            timed(paths, old, replace(old, rules=tuple(rule for rule in old.rules if rule.id != name)))


def timed(paths: list[Path], old: Rulebook, new: Rulebook) -> None:
    """Print how long one comparison takes."""
    spent, began = time.process_time(), time.perf_counter()
    found = compare_records(paths, lambda day: old, lambda day: new)
    size = sum(path.stat().st_size for path in paths) / len(paths) / 1e6
    moved = len({each.case for each in found.moved}) * found.frames // len(CASES)
    sys.stdout.write(
        f"{found.frames} records of {size:.1f} MB, {moved} of them moved: {time.process_time() - spent:.2f} s of "
        f"processor, {time.perf_counter() - began:.2f} s in all\n"
    )


if __name__ == "__main__":
    main()
