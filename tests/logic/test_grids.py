from itertools import product
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recommender.facts.fact import Fact
from recommender.facts.value import FactValue, number, unknown, word
from recommender.logic.conditions import Operand
from recommender.logic.grids import Axis, Band, Grid, Part, Row, Words, gaps, idle_axes, overlaps

GAP = Fact("gap", "side", "number", "gap", "A gap.", "measured", "reading", "measure it", "um", (0.0, 100.0))
COLOUR = Fact("colour", "side", "word", "colour", "A colour.", "seen", "inspection", "look", words=("red", "blue"))
AXES = (Axis(GAP), Axis(COLOUR, ("red", "blue")))
RED, BLUE = Words(("red",)), Words(("blue",))
INF = float("inf")


def band(low: float | None, high: float | None) -> Band:
    ends = (None if end is None else Operand(float(end), None, f"{end} um") for end in (low, high))
    return Band(*ends)


def grid(*rows: tuple[Part, Part, str]) -> Grid:
    return Grid(AXES, tuple(Row((first, second), answer) for first, second, answer in rows))


GOOD = ((band(None, 50), None, "small"), (band(50, None), RED, "large red"), (band(50, None), BLUE, "large blue"))


@pytest.mark.parametrize(
    ("facts", "answers"),
    [
        ({"gap": number("gap", 10), "colour": word("colour", "red")}, ["small"]),
        ({"gap": number("gap", 10)}, ["small"]),
        ({"gap": number("gap", 50), "colour": word("colour", "red")}, ["large red"]),
        ({"gap": number("gap", 1000), "colour": word("colour", "blue")}, ["large blue"]),
        ({"gap": number("gap", 60)}, ["large red", "large blue"]),
        ({"gap": number("gap", 60), "colour": unknown("colour", "")}, ["large red", "large blue"]),
        ({"gap": number("gap", 48, 45, 51), "colour": word("colour", "red")}, ["small", "large red"]),
        ({"gap": number("gap", 48, 45, 49.99)}, ["small"]),
        (
            {"gap": FactValue("gap", 48, 45, 49.9, sampling=0.1), "colour": word("colour", "red")},
            ["small", "large red"],
        ),
        ({"gap": number("gap", 60), "colour": word("colour", "green")}, []),
        ({"gap": number("gap", 10), "colour": word("colour", "green")}, []),
        ({}, ["small", "large red", "large blue"]),
    ],
)
def test_look_up(facts: Any, answers: list[str]) -> None:
    assert list(grid(*GOOD).look_up(facts).words) == answers


@pytest.mark.parametrize(
    ("rows", "found"),
    [
        (GOOD, []),
        (GOOD[:2], [((50, INF), "blue")]),
        (((band(None, 50), None, "a"), (band(60, None), None, "b")), [((50, 60), "red"), ((50, 60), "blue")]),
        (((None, RED, "a"), (band(40, 60), BLUE, "b")), [((-INF, 40), "blue"), ((60, INF), "blue")]),
        (((band(70, None), None, "a"), (band(10, 20), None, "b"), (band(20, 30), RED, "c")),
         [((-INF, 10), "red"), ((-INF, 10), "blue"), ((30, 70), "red"), ((20, 70), "blue")]),
    ],
)  # fmt: skip
def test_gaps_are_told_whole(rows: Any, found: list[Any]) -> None:
    assert sorted(gaps(grid(*rows)), key=str) == sorted(found, key=str)


@pytest.mark.parametrize(
    ("rows", "found"),
    [
        (GOOD, []),
        ((*GOOD, (band(90, None), RED, "x")), [(1, 3, ((90, INF), "red"))]),
        (((None, None, "a"), (band(10, 20), BLUE, "b")), [(0, 1, ((10, 20), "blue"))]),
    ],
)
def test_overlaps(rows: Any, found: list[Any]) -> None:
    assert list(overlaps(grid(*rows))) == found


def test_an_input_that_decides_nothing() -> None:
    rows = ((band(None, 50), RED, "a"), (band(None, 50), BLUE, "a"), (band(50, None), None, "b"))
    assert list(idle_axes(grid(*rows))) == [1]
    assert list(idle_axes(grid(*GOOD))) == []


ENDS = st.sampled_from((None, 0, 10, 20, 30))
BANDS = st.tuples(ENDS, ENDS).filter(lambda ends: None in ends or ends[0] < ends[1]).map(lambda ends: band(*ends))
ROWS = st.lists(
    st.tuples(st.none() | BANDS, st.sampled_from((None, RED, BLUE)), st.sampled_from(("a", "b"))),
    min_size=1,
    max_size=6,
)


@given(ROWS)
def test_the_proof_is_that_of_trying_every_place(rows: list[Any]) -> None:
    """Wherever one looks, a row holds unless a gap was told of, and only one does unless an overlap was."""
    made = grid(*rows)
    tried = [made.look_up({"gap": number("gap", value), "colour": word("colour", colour)}).rows
             for value, colour in product((-5, 0, 5, 10, 15, 20, 25, 30, 35), ("red", "blue"))]  # fmt: skip
    assert all(tried) == (not list(gaps(made)))
    assert all(len(each) <= 1 for each in tried) == (not list(overlaps(made)))
