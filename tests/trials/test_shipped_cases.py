"""Every shipped case does what the bench engineer who wrote it expects."""

from functools import cache
from pathlib import Path

import pytest

from recommender.bench.by_hand import recompute
from recommender.bench.load import load_case
from recommender.rulebook.book import Rulebook
from recommender.rulebook.load import load
from recommender.trials.malformed import Expected, expected_flaws
from recommender.trials.run_cases import case_files, malformed_lists, run_case, run_malformed

CASES = Path(__file__).resolve().parents[2] / "cases"
FILES = case_files(CASES)
MALFORMED = tuple(each for folder in malformed_lists(CASES) for each in expected_flaws(folder))


@cache
def book() -> Rulebook:
    return load()


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_case(path: Path) -> None:
    result = run_case(path, lambda received: book())
    assert [str(each) for each in result.flaws] == []
    assert result.expects
    assert result.missed == ()


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_arithmetic_by_hand(path: Path) -> None:
    expect = load_case(path).case.expect
    assert expect is not None
    assert expect.by_hand is None or recompute(expect.by_hand).agrees


@pytest.mark.parametrize("expected", MALFORMED, ids=lambda each: each.path.stem)
def test_malformed(expected: Expected) -> None:
    assert run_malformed(expected).missed == ()


def test_every_malformed_file_is_listed() -> None:
    for folder in malformed_lists(CASES):
        listed = {each.path for each in expected_flaws(folder)}
        assert {each for each in folder.glob("*.yaml") if each.name != "expected.yaml"} == listed


def test_the_verdicts_are_of_every_kind() -> None:
    assert {path.parent.name for path in FILES} == {"proceed", "measure_again", "refuse"}
