"""What is stored, under which name, and that it gives back the advice it was made from."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from recommender.advice import advise
from recommender.bench.load import load_case
from recommender.deciding.answer import as_data, to_json
from recommender.deciding.milder import standing, standing_of_data
from recommender.records.record import Record, stored
from recommender.records.restore import advice_from
from recommender.rulebook.book import Rulebook

Recorded = Callable[..., Record]


def test_the_same_case_makes_the_same_record_wherever_its_file_lay(record: Recorded, short_text: str) -> None:
    here, there = record(short_text, "a/b/hill-2036.yaml"), record(short_text, "/elsewhere/copy of it.yaml")
    assert here.id == there.id
    assert stored(here.content) == stored(there.content)


def test_places_point_into_the_case_text_of_the_record(long: Record) -> None:
    places = [node["place"] for key, node in long.content.advice["trace"].items() if key.startswith("case:")]
    lines = len(long.content.case_text.splitlines())
    assert places
    for place in places:
        name, line, _ = place.split(":")
        assert name == "lane-2041.yaml"
        assert 1 <= int(line) <= lines


def test_another_case_makes_another_id(record: Recorded, short: Record, short_text: str) -> None:
    other = record(short_text + "# a remark\n")
    assert other.id != short.id
    assert other.id.startswith("hill-2036-")


def test_the_case_text_is_kept_to_the_letter(record: Recorded, short_text: str) -> None:
    text = short_text.replace("\n", "\r\n") + "# \u00e4 \U0001f6b2\r\n"
    kept = json.loads(stored(record(text).content))
    assert kept["case_text"] == text


def test_rules_limits_house_and_engine_are_named(long: Record, book: Rulebook) -> None:
    content = long.content
    assert content.book.fingerprint == book.fingerprint == content.advice["rulebook"]["fingerprint"]
    assert set(content.book.entries["rules"]) == {*(rule.id for rule in book.rules), "(order)"}
    assert content.book.limits == {name: limit.shown for name, limit in book.limits.items()}
    assert content.advice["engine"].startswith("borewright ")
    assert content.advice["house_changes"] == []
    assert content.advice["trace"]["verdict/frame"]["verdict"] == content.advice["frame"]["verdict"]


@pytest.mark.parametrize("case", ["proceed/lane-2041", "refuse/hill-2036", "proceed/cliff-2071"])
def test_an_advice_comes_back_from_what_is_stored(case: str, book: Rulebook) -> None:
    advice = advise(load_case(Path(__file__).resolve().parents[2] / "cases" / f"{case}.yaml"), book)
    data = json.loads(to_json(advice))
    again = advice_from(data)
    assert to_json(again) == to_json(advice)
    assert standing(again) == standing(advice) == standing_of_data(data)
    assert [node.id for node in again.trace.walk("verdict/frame")] == [
        node.id for node in advice.trace.walk("verdict/frame")
    ]


def test_data_of_something_else_are_refused(short: Record) -> None:
    data = {key: value for key, value in short.content.advice.items() if key != "frame"}
    with pytest.raises(ValueError, match="frame"):
        advice_from(data)
    assert as_data(advice_from(short.content.advice))["frame"]["verdict"] == "refuse"
