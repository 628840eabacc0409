"""How long one case takes in posteriors, draws and geometry: both bores, 4,096 draws, one core.

    python tests/benchmarks/one_case.py            measures a few shipped cases, prints, and leaves with 1 above 30 ms
    python tests/benchmarks/one_case.py CASE...    the same of these cases

The time is that of the processor, all threads together, the least of many runs: from the readings of both sides to
size, form, inscribed and widest diameter with their interval. Reading and judging the case are no part of it.
"""

import sys
from pathlib import Path
from time import process_time

from recommender.bench.load import LoadedCase, load_case
from recommender.deriving.derived import SIDES
from recommender.deriving.draws_of import bore_scores
from recommender.deriving.measured import MeasuredLog
from recommender.deriving.sheet import bore_sheet
from recommender.metrology.draws import draw
from recommender.metrology.model import posterior
from recommender.metrology.scan import section_of
from recommender.metrology.summary import summarise
from recommender.reading.shipped import shipped_cases
from recommender.rulebook.book import Rulebook
from recommender.rulebook.load import load

MOST_MS, RUNS = 30.0, 40
FIELDS = ("mean", "mouth", "bottom", "taper", "ovality", "lobing", "inscribed", "widest")
SHIPPED = ("proceed/lane-2041.yaml", "proceed/bridge-2059.yaml", "proceed/skylark-2183.yaml")


def geometry(loaded: LoadedCase, book: Rulebook) -> int:
    """Work out both bores of a case and return how many were read."""
    read = 0
    for side in SIDES:
        sheet = bore_sheet(loaded.case, side, book, MeasuredLog(loaded.document)).sheet
        if not sheet.was_read:
            continue
        made = draw(posterior(sheet), sheet, bore_scores())
        for field in FIELDS:
            summarise(getattr(made, field), made.weights, made.effective_count)
        read += 1
    section_of.cache_clear()
    return read


def least_ms(loaded: LoadedCase, book: Rulebook) -> float:
    """Return the least processor time of a run in milliseconds."""
    works = []
    for _ in range(RUNS):
        before = process_time()
        geometry(loaded, book)
        works.append(process_time() - before)
    return 1000 * min(works)


def main(arguments: list[str]) -> int:
    """Measure and print; 0 when every case stays under the limit."""
    book, slow = load(), 0
    for path in map(Path, arguments or [str(shipped_cases() / each) for each in SHIPPED]):
        loaded = load_case(path)
        bores = geometry(loaded, book)
        found = least_ms(loaded, book)
        slow += found > MOST_MS
        sys.stdout.write(f"{path.stem}: {bores} bores in {found:.1f} ms\n")
    sys.stdout.write(f"At most {MOST_MS:.0f} ms a case.\n")
    return 1 if slow else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
