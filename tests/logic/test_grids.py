from typing import Any

import pytest

from recommender.facts.value import number, unknown, word
from recommender.logic.grids import Axis, Band, Grid, Part, Row, Words

AXES = (Axis("gap", Band(0, 100)), Axis("colour", Words(("red", "blue"))))
RED, BLUE = Words(("red",)), Words(("blue",))


def grid(*rows: tuple[Part, Part, str]) -> Grid:
    return Grid(AXES, tuple(Row((first, second), answer) for first, second, answer in rows))


GOOD = ((Band(0, 50), None, "small"), (Band(50, 100), RED, "large red"), (Band(50, 100), BLUE, "large blue"))


@pytest.mark.parametrize(
    ("facts", "answer"),
    [
        ({"gap": number("gap", 10), "colour": word("colour", "red")}, "small"),
        ({"gap": number("gap", 10)}, "small"),
        ({"gap": number("gap", 50), "colour": word("colour", "red")}, "large red"),
        ({"gap": number("gap", 100), "colour": word("colour", "blue")}, "large blue"),
        ({"gap": number("gap", 60)}, "undecided"),
        ({"gap": number("gap", 60), "colour": unknown("colour", "")}, "undecided"),
        ({"gap": number("gap", 48, 45, 51), "colour": word("colour", "red")}, "undecided"),
        ({"gap": number("gap", 48, 45, 49.99)}, "small"),
        ({"gap": number("gap", 101), "colour": word("colour", "red")}, "undecided"),
        ({"gap": number("gap", 1, -1, 3), "colour": word("colour", "red")}, "undecided"),
        ({"gap": number("gap", 60), "colour": word("colour", "green")}, "undecided"),
        ({"gap": word("gap", "red"), "colour": word("colour", "red")}, "undecided"),
        ({}, "undecided"),
    ],
)
def test_look_up(facts: Any, answer: str) -> None:
    assert grid(*GOOD).look_up(facts) == answer


@pytest.mark.parametrize(
    ("rows", "message"),
    [
        (GOOD[:2], "no row at gap 50 to 100, colour blue"),
        ((*GOOD, (Band(90, 100), RED, "x")), "rows 2 and 4 overlap at gap 90 to 100, colour red"),
        (((Band(0, 50), None, "a"), (Band(60, 100), None, "b")), "no row at gap 50 to 60, colour red; "),
        (((Band(0, 120), None, "a"),), "row 1 leaves the range of gap"),
        (((None, Words(("green",)), "a"),), "row 1 leaves the range of colour"),
        (((Band(50, 0), None, "a"),), "row 1 leaves the range of gap"),
        (((RED, None, "a"),), "row 1 leaves the range of gap"),
        ((), "no row at gap 0 to 100, colour red"),
    ],
)
def test_a_table_that_is_not_proven_is_refused(rows: Any, message: str) -> None:
    with pytest.raises(ValueError, match=message):
        grid(*rows)


def test_shape() -> None:
    with pytest.raises(ValueError, match="2 to 4 inputs, not 1"):
        Grid(AXES[:1], (Row((None,), "a"),))
    with pytest.raises(ValueError, match="row 1 has 1 parts for 2 inputs"):
        Grid(AXES, (Row((None,), "a"),))
