"""Records of shipped cases, and the rule book they were judged by."""

from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

from recommender.advice import advise
from recommender.records.case_text import load_case_text
from recommender.records.record import Record, file_shown, record_of
from recommender.rulebook.book import Rulebook
from recommender.rulebook.load import load

ROOT = Path(__file__).resolve().parents[2]
CASES = ROOT / "cases"
SHORT = CASES / "refuse" / "hill-2036.yaml"
LONG = CASES / "proceed" / "lane-2041.yaml"


@cache
def shipped() -> Rulebook:
    return load()


@cache
def recorded(text: str, shown: str = "") -> Record:
    loaded = load_case_text(text, shown or "some/where.yaml")
    return record_of(loaded, advise(loaded, shipped()), shipped())


@pytest.fixture(scope="session")
def book() -> Rulebook:
    return shipped()


@pytest.fixture(scope="session")
def record() -> Callable[..., Record]:
    return recorded


@pytest.fixture(scope="session")
def short_text() -> str:
    return SHORT.read_text(encoding="utf-8")


@pytest.fixture(scope="session")
def long_text() -> str:
    return LONG.read_text(encoding="utf-8")


@pytest.fixture(scope="session")
def short(short_text: str) -> Record:
    return recorded(short_text, file_shown("hill-2036"))


@pytest.fixture(scope="session")
def long(long_text: str) -> Record:
    return recorded(long_text, file_shown("lane-2041"))
