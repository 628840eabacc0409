"""Lines fit 80 columns and carry nothing that steers a terminal."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recommender.account.lines import WIDTH, bullets, clean, heading, numbered, plain, row, section, wrapped


@given(st.text(st.characters(codec="utf-8"), max_size=400))
def test_nothing_steers_the_terminal(text: str) -> None:
    assert all(each.isprintable() for each in clean(text))
    assert all(line.text.isprintable() for line in wrapped(text, "  - "))


@given(st.lists(st.text("abc-,.", min_size=1, max_size=40), min_size=1, max_size=60))
def test_words_that_fit_stay_within_the_width(words: list[str]) -> None:
    assert max(len(line.text) for line in row("Label", " ".join(words))) <= WIDTH


def test_a_word_is_never_broken() -> None:
    assert plain(wrapped("polymer_cup.bar_low " * 6, "  ")).split() == ["polymer_cup.bar_low"] * 6


def test_rows_stand_in_a_column() -> None:
    first, second = (line.text for line in row("Bore", "word " * 15))
    assert first.index("word") == second.index("word") == 16


@pytest.mark.parametrize("made", [row("Bore", ""), section("TO MIND", []), bullets([]), numbered([])])
def test_nothing_to_say_takes_no_line(made: list[object]) -> None:
    assert made == []


def test_headings_follow_a_blank_line() -> None:
    assert [line.text for line in heading("FRAME")] == ["", "FRAME"]
    assert [line.text for line in numbered(["a", "b"])] == ["  1. a", "  2. b"]
