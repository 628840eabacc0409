"""Answers name limits by what they mean and say why a part in hand is not the one to fit; `why` keeps the ids."""

import re
from collections.abc import Callable

import pytest

from recommender.account.answer_side import chosen, passed_over
from recommender.account.answer_text import answer_lines
from recommender.account.lines import plain
from recommender.account.why_text import why_lines
from recommender.deciding.answer import Advice
from recommender.rulebook.book import Rulebook

Advised = Callable[[str], Advice]
CASES = ("proceed/lane-2041", "proceed/orchard-2052", "measure_again/anvil-2072", "proceed/teal-2165")


def _told(lines: str) -> str:
    return " ".join(lines.split())


@pytest.mark.parametrize("case", CASES)
def test_an_answer_names_no_limit_by_its_id(case: str, advised: Advised, book: Rulebook) -> None:
    words = set(re.findall(r"[a-z0-9_]+\.[a-z0-9_.]*[a-z0-9_]", plain(answer_lines(advised(case)))))
    assert not words & book.limits.keys()


def test_an_answer_and_its_reasons_name_the_meaning_of_a_limit(advised: Advised) -> None:
    advice = advised("measure_again/anvil-2072")
    meaning = "largest interference at 20 C at which a bearing in a metal bore is pressed at all"
    assert f"is not clear of 40.0 um ({meaning})" in _told(plain(answer_lines(advice)))
    told = _told(plain(why_lines(advice)))
    assert f"40.0 um (bearing_in_metal.bar_high); limit: {meaning};" in told


def test_a_part_in_hand_that_was_ruled_out_is_named_beside_the_part_to_fit(advised: Advised) -> None:
    advice = advised("proceed/teal-2165")
    side = advice.sides["drive"]
    (text,) = passed_over(side)
    assert text.startswith("aluminium cup 46 (in hand, no. 1): ")
    (barred,) = [each for remedy in side.remedies if remedy.id == side.remedy for each in remedy.options
                 if each.part == "aluminium_cup_46 (in hand, no. 1)"]  # fmt: skip
    shown = barred.facts["fit.tightest_interference"].value
    assert shown is not None
    assert f"interference at the tightest place {shown:.1f} um" in text
    assert "past the limit by" in text
    assert _told(text) in _told(plain(answer_lines(advice)))


def test_where_a_measured_part_fits_no_other_is_named(advised: Advised) -> None:
    side = advised("proceed/lane-2041").sides["drive"]
    option = chosen(side)
    assert option is not None
    assert (option.facts["part.measured"].word is True) == (not passed_over(side))
