"""Trade facts about wear: common practice, no source.

The softer partner wears before the harder one, so a polymer cup wears before a carbon bore; a bore 0.25 mm too large
on diameter, round and parallel, is not what a polymer cup wears. The tool must not call such a bore worn.
"""

from pathlib import Path

import pytest

from recommender.advice import advise
from recommender.bench.load import case_in, load_case
from recommender.reading.shipped import shipped_cases
from recommender.reading.yaml_reader import read_text
from recommender.rulebook.book import Rulebook
from recommender.rulebook.load import load

OVERSIZE = "quay-2012.yaml"
AGAINST = "worn.beyond-a-polymer-cup"


@pytest.fixture(scope="module")
def book() -> Rulebook:
    return load()


def _quay() -> Path:
    return next(shipped_cases().rglob(OVERSIZE))


def test_the_polymer_of_cups_is_softer_than_the_laminate_of_shells(book: Rulebook) -> None:
    polymer, carbon = book.materials["polymer"].modulus, book.materials["carbon"].modulus
    assert polymer.high < carbon.low


def test_a_quarter_millimetre_of_slack_speaks_against_wear_by_a_polymer_cup(book: Rulebook) -> None:
    wider = _quay().read_text(encoding="utf-8").replace("41.1", "41.2")
    advice = advise(case_in(read_text(wider, OVERSIZE)), book)
    for side in ("drive", "non_drive"):
        worn = next(each for each in advice.causes if each.cause == "worn" and each.side == side)
        assert AGAINST in {finding.rule for finding in worn.speaks_against}


def test_a_bore_made_too_large_is_called_consistent_with_manufacture(book: Rulebook) -> None:
    advice = advise(load_case(_quay()), book)
    made = next(each for each in advice.causes if each.cause == "made_so" and each.side == "drive")
    worn = next(each for each in advice.causes if each.cause == "worn" and each.side == "drive")
    assert len(made.speaks_for) > len(made.speaks_against)
    assert len(worn.speaks_against) > len(worn.speaks_for)
