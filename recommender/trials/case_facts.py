"""The facts of many cases, for whatever only needs them and not the decision."""

from collections.abc import Callable, Iterable
from datetime import date
from pathlib import Path

from recommender.bench.load import load_case
from recommender.deriving.derive import derive
from recommender.deriving.derived import Derived
from recommender.rulebook.book import Rulebook
from recommender.trials.run_cases import case_files


def derived_cases(paths: Iterable[Path], books: Callable[[date], Rulebook]) -> tuple[Derived, ...]:
    """Return the facts of every case in these files and folders, in order; raises Flawed when one is flawed."""
    files = (each for path in paths for each in (case_files(path) if path.is_dir() else (path,)))
    loaded = map(load_case, files)
    return tuple(derive(each, books(each.case.received)) for each in loaded)
