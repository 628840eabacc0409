"""The shipped book, shipped cases with their advice, and their pages: each made once for all tests."""

import os
import re
import tempfile
from collections.abc import Callable
from functools import cache

# As the command does: the matrices are small, and threads that wait for each other only cost time.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
# No test reads or leaves anything in the cache of whoever runs it.
os.environ["XDG_CACHE_HOME"] = tempfile.mkdtemp(prefix="borewright-tests-")

import pytest

from recommender.advice import advise
from recommender.bench.load import LoadedCase, load_case
from recommender.deciding.answer import Advice
from recommender.reading.shipped import shipped_cases
from recommender.rulebook.book import Rulebook
from recommender.rulebook.load import load


@cache
def _book() -> Rulebook:
    return load()


@cache
def _loaded(name: str) -> LoadedCase:
    return load_case(shipped_cases() / f"{name}.yaml")


@cache
def _advised(name: str) -> Advice:
    return advise(_loaded(name), _book())


@pytest.fixture(scope="session")
def book() -> Rulebook:
    """The shipped rule book."""
    return _book()


@pytest.fixture(scope="session")
def shipped() -> Callable[[str], LoadedCase]:
    """Return a function from a case such as `refuse/kiln-2014` to the case as it was read."""
    return _loaded


@pytest.fixture(scope="session")
def advised() -> Callable[[str], Advice]:
    """Return a function from a case such as `refuse/kiln-2014` to its advice."""
    return _advised


@pytest.fixture(scope="session")
def too_long() -> Callable[[str], list[str]]:
    """Return a function to the lines over 80 columns, save a file's place alone on its line: a path is not broken."""
    place = re.compile(r" *\[/\S+\.yaml:\d+\]")
    return lambda text: [line for line in text.splitlines() if len(line) > 80 and not place.fullmatch(line)]
