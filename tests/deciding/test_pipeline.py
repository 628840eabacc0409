"""From a case file and the shipped rules to the advice."""

import json
from pathlib import Path

import pytest

from recommender.advice import advise
from recommender.bench.load import load_case
from recommender.deciding.answer import to_json
from recommender.reading.shipped import shipped_cases
from recommender.rulebook.load import load

CASES = Path(__file__).parents[2] / "cases"


@pytest.fixture(scope="module")
def book():
    return load()


def test_the_same_case_and_book_give_the_same_bytes(book):
    texts = {to_json(advise(load_case(CASES / "proceed" / "lane-2041.yaml"), book)) for _ in range(2)}
    assert len(texts) == 1
    assert json.loads(texts.pop())["case"]["id"] == "lane-2041"


def test_verdict_and_notices_of_a_case_with_a_crack(book):
    advice = advise(load_case(CASES / "refuse" / "gate-2021.yaml"), book)
    assert (advice.frame.verdict, advice.notices[0].id) == ("refuse", "damage")


def test_every_finding_and_its_checks_stand_in_the_trace_and_lead_to_the_bench(book):
    advice = advise(load_case(CASES / "proceed" / "mill-2027.yaml"), book)
    found = [each for side in advice.sides.values() for remedy in side.remedies for option in remedy.options
             for each in option.findings]
    assert found
    for each in found:
        assert all(check.node in advice.trace.nodes for check in each.checks)
    walked = list(advice.trace.walk("verdict/frame"))
    read = [node for node in walked if type(node).__name__ == "Measured" and node.place is not None]
    assert {Path(node.place.file).name for node in read} == {"mill-2027.yaml"}
    assert {"LimitUsed", "Derived", "Check", "RuleRun", "Contest"} <= {type(node).__name__ for node in walked}
    assert all(each in advice.trace.nodes for node in walked for each in node.rests_on)


@pytest.mark.parametrize("name", ["proceed/lane-2041", "refuse/gate-2021", "measure_again/barn-2050"])
def test_what_a_short_answer_is_worded_from_is_no_other_trace(book, name):
    asked, whole = (advise(load_case(shipped_cases() / f"{name}.yaml"), book).trace.nodes for _ in range(2))
    nodes = dict(whole)
    assert asked._few.keys() <= nodes.keys()
    assert {each: asked[each] for each in nodes} == nodes
