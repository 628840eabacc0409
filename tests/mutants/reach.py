"""Which file of tests reaches which functions of the packages, and how long it takes: measured once, then kept."""

import json
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

from mutants.graft import forget
from mutants.served import Served
from mutants.survivors import PACKAGE, Mutant, functions

# Left out: those that try every command, start a browser, search, draw frames or measure speed.
FOLDERS = ("mechanics", "metrology", "outside", "deciding", "deriving", "golden", "asking", "trials", "property",
           "records", "account")  # fmt: skip
WATCHED = ("deciding", "metrology", "mechanics")
LONGEST = 30.0


class File(NamedTuple):
    """A file of tests: seconds of processor time it takes, and the functions it reaches by module."""

    file: str
    seconds: float
    reached: dict[str, list[str]]


def measure(served: Served, scratch: Path) -> list[File]:
    """Return what every file reaches; what stands in `scratch` already is not measured again.

    A file that fails or takes longer than half a minute counts for nothing.
    """
    kept, inside = scratch / "reach.ndjson", scratch / "reached.json"
    known = [json.loads(line) for line in kept.read_text("utf-8").splitlines()] if kept.exists() else []
    for file in [each for each in served.files if each not in {one["file"] for one in known}]:
        outcome = served.run({file: LONGEST}, _watched(inside))
        reached = json.loads(inside.read_text("utf-8")) if outcome.how == "passed" else {}
        known.append({"file": file, "how": outcome.how, "seconds": outcome.seconds, "reached": reached})
        with kept.open("a", encoding="utf-8") as opened:
            opened.write(json.dumps(known[-1]) + "\n")
        sys.stdout.write(f"{outcome.seconds:7.1f} s  {outcome.how}  {file}\n")
        sys.stdout.flush()
    return [File(each["file"], each["seconds"], each["reached"]) for each in known
            if each["how"] == "passed" and each["file"] in served.files]  # fmt: skip


def reaching(files: list[File], mutant: Mutant, most: float) -> dict[str, float]:
    """Return the files that reach the changed function, with their seconds.

    Those of its package and the kept accounts, which see all of an answer, then the others, each time the quickest
    first; together they take `most` seconds, or little more. Outside of functions every file counts that reaches the
    module, or any file if none does.
    """
    found = [each for each in files if mutant.place in each.reached.get(mutant.module, ())]
    if not mutant.place:
        found = [each for each in files if mutant.module in each.reached] or list(files)
    first = (f"tests/{mutant.module.split('/')[0]}/", "tests/golden/")
    found.sort(key=lambda each: (not each.file.startswith(first), each.seconds))
    taken = dict[str, float]()
    for each in found:
        if sum(taken.values()) < most:
            taken[each.file] = each.seconds
    return taken


@contextmanager
def _watched(kept: Path) -> Iterator[None]:
    import coverage

    forget(PACKAGE.name)
    watching = coverage.Coverage(data_file=None, config_file=False,
                                 include=[str(PACKAGE / each / "*") for each in WATCHED])  # fmt: skip
    watching.start()
    yield
    watching.stop()
    data = watching.get_data()
    found = {Path(file).relative_to(PACKAGE).as_posix(): set(data.lines(file) or ()) for file in data.measured_files()}
    reached = {module: [name for name, first, last in functions(module) if lines & set(range(first, last + 1))]
               for module, lines in found.items()}  # fmt: skip
    kept.write_text(json.dumps(reached), encoding="utf-8")
