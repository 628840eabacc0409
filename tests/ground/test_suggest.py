"""Did you mean."""

import pytest

from recommender.ground.suggest import did_you_mean, nearest

WORDS = ("at_least", "at_most", "bearing_6806", "carbon")


@pytest.mark.parametrize(
    ("typo", "meant"), [("at_mots", "at_most"), ("At-Least", "at_least"), ("carbn", "carbon"), ("zzz", None)]
)
def test_nearest_known_word(typo: str, meant: str | None) -> None:
    assert nearest(typo, WORDS) == meant


def test_far_words_get_the_list() -> None:
    assert did_you_mean("zzz", WORDS) == "Known here: at_least, at_most, bearing_6806, carbon."


def test_a_long_list_is_cut() -> None:
    advice = did_you_mean("zzz", [f"word{number:02}" for number in range(40)])
    assert advice.startswith("Known are 40 words, among them: word00, ")
    assert "word12" not in advice


def test_the_order_of_the_known_words_does_not_matter() -> None:
    assert did_you_mean("at_", WORDS) == did_you_mean("at_", reversed(WORDS))


def test_of_a_long_list_those_that_hold_the_word_are_named() -> None:
    known = [*(f"word{number:02}" for number in range(40)), "rules.untested-leaf"]
    assert did_you_mean("untested", known) == "Known with `untested` in them: rules.untested-leaf."


def test_instead_of_a_long_list_stands_where_to_find_it() -> None:
    assert did_you_mean("zzz", [f"word{number:02}" for number in range(40)], "Ask for it.") == "Ask for it."
