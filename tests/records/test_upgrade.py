"""Records of earlier formats stay readable.

`frozen/` holds records as each format was first written. When the form of an advice or record changes so that one of
them cannot be read any more, the format gets the next number and `upgrade.py` the step from the one before.
"""

import json
from pathlib import Path
from typing import Any

import pytest

from recommender.deciding.answer import as_data
from recommender.ground.flaw import Flawed
from recommender.records.decided import read_decided
from recommender.records.restore import advice_from
from recommender.records.store import read_record
from recommender.records.upgrade import CURRENT, STEPS, upgraded
from recommender.rulebook.load import load
from recommender.trials.replay import replay

FROZEN = sorted((Path(__file__).parent / "frozen").glob("*.json"))


def test_there_is_a_frozen_record_of_every_format() -> None:
    formats = {json.loads(path.read_text(encoding="utf-8"))["format"] for path in FROZEN}
    assert formats == {f"borewright/record/{number}" for number in range(1, CURRENT + 1)}
    assert set(STEPS) == set(range(1, CURRENT))


@pytest.mark.parametrize("path", FROZEN, ids=lambda path: path.name)
def test_a_frozen_record_is_read(path: Path) -> None:
    record = read_record(path)
    assert record.id == path.stem
    advice = advice_from(record.content.advice)
    assert as_data(advice) == record.content.advice
    assert advice.frame.verdict == {"hill-2036": "refuse", "lane-2041": "proceed"}[advice.case.id]


def test_a_record_of_the_first_format_says_all_that_stands_in_its_file() -> None:
    (first,) = [(path, data) for path in FROZEN if (data := json.loads(path.read_text(encoding="utf-8")))["format"]
                == "borewright/record/1"]  # fmt: skip
    content = read_record(first[0]).content
    assert content.model_dump() == {**first[1], "format": f"borewright/record/{CURRENT}"}


@pytest.mark.parametrize("path", FROZEN, ids=lambda path: path.name)
def test_a_frozen_record_is_read_without_its_trace(path: Path) -> None:
    full, quick = read_record(path).content, read_decided(path)
    assert quick.case_text == full.case_text
    for name, side in full.advice["sides"].items():
        found = {fact: each.value for fact, each in quick.advice.sides[name].facts.items()}
        assert found == {fact: each.get("value") for fact, each in side["facts"].items()}


@pytest.mark.parametrize("path", FROZEN, ids=lambda path: path.name)
def test_a_frozen_record_is_replayed(path: Path) -> None:
    again = replay(read_record(path), lambda _: load())
    assert again.flaws == ()
    assert again.difference is not None
    assert again.difference.case == ()


def test_steps_lead_from_any_number_to_the_present_one() -> None:
    steps = {1: lambda data: {**data, "b": data["a"]}, 2: lambda data: {**data, "c": data["b"]}}
    assert upgraded({"format": "borewright/record/1", "a": 5}, "x", steps, 3) == {
        "format": "borewright/record/3", "a": 5, "b": 5, "c": 5,
    }  # fmt: skip
    assert upgraded({"format": "borewright/record/3"}, "x", steps, 3) == {"format": "borewright/record/3"}


@pytest.mark.parametrize(
    ("data", "said"),
    [({"format": "borewright/record/3"}, "reads formats up to 2"), ({"format": "borewright/record/0"}, "does not say"),
     ({"format": "borewright/advice/1"}, "does not say"), ({"format": 1}, "does not say"), ([], "does not say"),
     (None, "does not say"), ({}, "does not say"), ({"format": "borewright/record/1x"}, "does not say")],
)  # fmt: skip
def test_other_formats_are_refused(data: Any, said: str) -> None:
    with pytest.raises(Flawed, match=said):
        upgraded(data, "some.json")
