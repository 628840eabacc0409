"""How much work an answer takes, as ratios to something that must be done anyway; both raw numbers beside each.

    python tests/benchmarks/speed.py                 everything, a quarter of an hour
    python tests/benchmarks/speed.py --short         what the continuous checks run, a minute
    python tests/benchmarks/speed.py --keep          writes the figures of this release into speed.json

Ratios of processor time are taken in turn in one run; start-up is counted in instructions where valgrind is installed.
"""

import argparse
import json
import os
import platform
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parents[1])]

from ratios import Ratio  # noqa: E402
from speed_inside import inside  # noqa: E402
from speed_many import many  # noqa: E402
from speed_start import start_up  # noqa: E402

KEPT = HERE / "speed.json"
RUNS = 9


def measured(short: bool, cases: int) -> Iterator[Ratio]:
    """Yield every ratio; of the short form those that a busy machine cannot move far."""
    yield from inside(5 if short else RUNS)
    if not short:
        yield from start_up(RUNS)
        yield from many(RUNS, cases)


def as_data(found: list[Ratio]) -> dict[str, Any]:
    figures = {each.name: {**each._asdict(), "ratio": each.value, "met": each.met} for each in found}
    return {"machine": platform.processor() or platform.machine(), "cores": os.cpu_count(),
            "python": platform.python_version(), "ratios": figures}  # fmt: skip


def against(found: list[Ratio]) -> Iterator[str]:
    """Yield how each ratio stands to that of the last release."""
    kept = json.loads(KEPT.read_text(encoding="utf-8"))["ratios"] if KEPT.exists() else {}
    for each in found:
        if each.name in kept:
            yield f"{each.name:62s} was {kept[each.name]['ratio']:.2f}, is {each.value:.2f}"


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--short", action="store_true")
    asked.add_argument("--keep", action="store_true")
    asked.add_argument("--json", type=Path)
    asked.add_argument("--cases", type=int, default=20_000, help="through how many a sweep goes")
    told = asked.parse_args()
    print(f"{'what':62s} {'ours':>12s} {'other':>12s} {'unit':8s} {'ratio':>8s} {'bound':>8s}")  # noqa: T201
    found = []
    for each in measured(told.short, told.cases):
        found.append(each)
        print(each.line(), flush=True)  # noqa: T201
    print("\nagainst the last release")  # noqa: T201
    print("\n".join(against(found)) or "no figures were kept")  # noqa: T201
    for path in filter(None, (told.json, KEPT if told.keep else None)):
        path.write_text(json.dumps(as_data(found), indent=1, sort_keys=True) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
