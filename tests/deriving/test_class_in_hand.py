from collections.abc import Callable
from typing import Any

import pytest

from recommender.deriving.derived import Derived, OptionFacts
from recommender.rulebook.book import Rulebook

Make = Callable[..., Derived]
CUP = {"part": "polymer_cup_46", "od": "46.032 mm", "bearing_fitted": "fitted"}


def _pressed(derived: Make, **part: Any) -> OptionFacts:
    found = derived({"parts": [{**CUP, **part}]})
    return next(each for each in found.sides["drive"].options if each.remedy == "press_as_is")


def _middle(option: OptionFacts, fact: str) -> float:
    value = option.facts[fact].value
    assert value is not None
    return value


def test_a_bearing_whose_class_nobody_noted_leaves_the_class_open(derived: Make) -> None:
    option = _pressed(derived)
    assert option.facts["part.clearance_class"].known is False
    assert {each.name for each in option.classes} == {"CN", "C3", "C4"}


@pytest.mark.parametrize("name", ["C2", "CN", "C3", "C4"])
def test_the_class_in_hand_is_the_only_one_told(derived: Make, name: str) -> None:
    option = _pressed(derived, clearance_class=name)
    assert option.facts["part.clearance_class"].word == name
    assert option.facts["bearing.class"].word == name
    assert [each.name for each in option.classes] == [name]


def test_the_clearance_left_is_that_of_the_class_in_hand(derived: Make, book: Rulebook) -> None:
    """The same fit takes the same from every class: C4 to CN differ by the middles of their bands as sold."""
    sold = book.bearings["6806"].clearance
    apart = (sum(sold["C4"]) - sum(sold["CN"])) / 2 * 1000
    left = {each: _middle(_pressed(derived, clearance_class=each), "bearing.clearance_left") for each in ("C4", "CN")}
    assert left["C4"] - left["CN"] == pytest.approx(apart, abs=0.6)
    assert left["C4"] == pytest.approx(_middle(_pressed(derived), "bearing.clearance_left"), abs=0.01)


def test_the_bearing_fitted_in_a_cup_tells_its_class_too(derived: Make) -> None:
    option = _pressed(derived, bearing={"part": "bearing_6806", "clearance_class": "C3"})
    assert option.facts["bearing.class"].word == "C3"


def test_two_classes_that_differ_tell_nothing(derived: Make) -> None:
    option = _pressed(derived, clearance_class="CN", bearing={"part": "bearing_6806", "clearance_class": "C3"})
    assert option.facts["part.clearance_class"].known is False


def test_a_tighter_class_in_hand_narrows_the_window_or_leaves_it(derived: Make) -> None:
    tight, wide = (_pressed(derived, clearance_class=each).make for each in ("C2", "C4"))
    assert tight is not None
    assert wide is not None
    assert tight.window is not None
    assert wide.window is not None
    assert tight.window[1] <= wide.window[1]
    assert tight.bound_by is not None
    assert tight.bound_by[1] == "bearing.clearance_least"


def test_a_cup_still_to_be_turned_takes_a_bearing_still_to_be_ordered(derived: Make) -> None:
    found = derived({"parts": [{**CUP, "clearance_class": "CN"}]})
    turned = next(each for each in found.sides["drive"].options if each.remedy in ("undersize_cup", "oversize_cup"))
    assert turned.facts["part.clearance_class"].known is False
