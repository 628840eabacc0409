from collections.abc import Callable
from typing import Any

import pytest

from recommender.deriving.derived import Derived, OptionFacts
from recommender.deriving.part_in_hand import expansion_of, widened_by_bearing
from recommender.rulebook.book import Rulebook

Make = Callable[..., Derived]


def _pressed(found: Derived) -> OptionFacts:
    return next(each for each in found.sides["drive"].options if each.remedy == "press_as_is")


def _od(derived: Make, part: dict[str, Any], **more: Any) -> tuple[float, float]:
    value = _pressed(derived({"parts": [part], **more})).facts["part.od"]
    assert value.value is not None
    assert value.high is not None
    assert value.low is not None
    return value.value, value.high - value.low


CUP = {"part": "polymer_cup_46", "od": "46.032 mm", "bearing_fitted": "fitted"}


def test_a_part_measured_warm_is_smaller_at_20_degrees(derived: Make, book: Rulebook) -> None:
    """The cup at 28 C, frame and gauge at 20 C: smaller by its own expansion times 8 K, here 8 to 10 um."""
    cool, warm = _od(derived, CUP)[0], _od(derived, {**CUP, "temperature": "28 degC"})[0]
    grows = expansion_of(book.parts["polymer_cup_46"], "polymer", 46.032, book).value
    assert (cool - warm) * 1000 == pytest.approx(46.032 * grows * 8 * 1000, abs=0.3)
    assert 6 < (cool - warm) * 1000 < 14


def test_a_part_that_lay_with_a_warm_frame_is_corrected_with_it(derived: Make, sound: dict[str, Any]) -> None:
    bench = {**sound["bench"], "frame_temperature": "24 degC"}
    assert _od(derived, CUP, bench=bench)[0] < _od(derived, CUP)[0]


def test_a_polymer_cup_on_its_bearing_grows_more_than_steel_and_far_less_than_by_itself(book: Rulebook) -> None:
    grows = expansion_of(book.parts["polymer_cup_46"], "polymer", 46.03, book).value
    steel, polymer = book.materials["bearing_steel"].expansion.value, book.materials["polymer"].expansion.value
    assert steel < grows < polymer / 3


def test_a_cup_of_which_nobody_knows_whether_its_bearing_was_in_may_be_wider(derived: Make, book: Rulebook) -> None:
    known, unknown = _od(derived, CUP), _od(derived, {**CUP, "bearing_fitted": "unknown"})
    widest = widened_by_bearing(book.parts["polymer_cup_46"], "polymer", 46.032, book)
    assert unknown[1] > known[1]
    assert known[0] < unknown[0] <= known[0] + widest


def test_a_bearing_is_its_own_ring(derived: Make, book: Rulebook) -> None:
    grows = expansion_of(book.parts["bearing_6806"], "steel", 42.0, book)
    assert grows.value == book.materials["bearing_steel"].expansion.value
