"""Advice on shipped cases, made once, for accounts to tell."""

from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

from recommender.advice import advise
from recommender.bench.load import load_case
from recommender.deciding.answer import Advice
from recommender.rulebook.book import Rulebook
from recommender.rulebook.load import load

CASES = Path(__file__).resolve().parents[2] / "cases"
Advised = Callable[[str], Advice]


@cache
def _book() -> Rulebook:
    return load()


@cache
def _advised(name: str) -> Advice:
    return advise(load_case(CASES / f"{name}.yaml"), _book())


@pytest.fixture(scope="session")
def advised() -> Advised:
    """Return a function from a case such as `refuse/kiln-2014` to its advice."""
    return _advised


@pytest.fixture(scope="session")
def book() -> Rulebook:
    return _book()
