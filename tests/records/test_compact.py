"""The trace a record stores is the trace, whole."""

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recommender.records.compact import compact, expanded
from recommender.records.record import Record, stored

TEXT = st.text(max_size=6)
VALUES = st.one_of(TEXT, st.booleans())
FIELDS = st.dictionaries(st.sampled_from(["fact", "place", "assumed", "shown"]), VALUES, max_size=4)


@st.composite
def traces(draw: st.DrawFn) -> dict[str, Any]:
    """Nodes of any kind, id and content, resting on any of each other."""
    ids = draw(st.lists(TEXT, unique=True, max_size=8))
    nodes = {name: {"node": draw(st.sampled_from(["Check", "Group", "Verdict"])), **draw(FIELDS)} for name in ids}
    for node in nodes.values():
        if draw(st.booleans()):
            node["rests_on"] = draw(st.lists(st.sampled_from(ids), max_size=3))
    return nodes


@given(traces())
def test_any_trace_comes_back_whole(trace: dict[str, Any]) -> None:
    tables = compact(trace)
    assert expanded(json.loads(json.dumps(tables))) == trace
    assert json.dumps(compact(dict(reversed(trace.items())))) == json.dumps(tables)


def test_the_trace_takes_less_than_a_third_of_what_it_says(long: Record) -> None:
    trace = long.content.advice["trace"]
    assert expanded(compact(trace)) == trace
    assert len(json.dumps(compact(trace))) < len(json.dumps(trace)) / 3


def test_a_node_that_rests_on_nothing_there_is_not_stored() -> None:
    with pytest.raises(KeyError, match="elsewhere"):
        compact({"a": {"node": "Check", "rests_on": ["elsewhere"]}})


GOOD = {"texts": ["x"], "kinds": [["Check", ["fact", "rests_on"]]], "ids": [[0, "a"], [1, "b"]],
        "rows": [[0, 0, None], [0, None, [0]]]}  # fmt: skip


@pytest.mark.parametrize("change", [
    {"texts": []}, {"kinds": []}, {"ids": [[0, "a"]]}, {"ids": [[0, "a"], ["b"]]}, {"ids": [0, "a"]},
    {"rows": [[0, 0, None]]}, {"rows": [[0, 0], [0, None, [0]]]}, {"rows": [[0, 0, None], [0, None, [2]]]},
    {"rows": [[0, 0, None], [0, None, 5]]}, {"rows": [[0, "x", None], [0, None, [0]]]}, {"rows": [[], []]},
    {"ids": [[0, "a" * 9_000], *([9_000, "b"] for _ in range(9_000))], "rows": []},
])  # fmt: skip
def test_other_tables_are_refused(change: dict[str, Any]) -> None:
    assert expanded(GOOD) == {"a": {"node": "Check", "fact": "x"}, "ab": {"node": "Check", "rests_on": ["a"]}}
    with pytest.raises((ValueError, LookupError, TypeError)):
        expanded({**GOOD, **change})


def test_a_file_stores_the_tables_in_place_of_the_nodes(long: Record) -> None:
    kept = json.loads(stored(long.content))
    assert kept["format"] == "borewright/record/2"
    assert set(kept["advice"]["trace"]) == {"texts", "kinds", "ids", "rows"}
    assert {**kept["advice"], "trace": None} == {**long.content.advice, "trace": None}
