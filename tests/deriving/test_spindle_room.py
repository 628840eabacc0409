from collections.abc import Callable

import pytest

from recommender.deriving.derived import Derived

Make = Callable[..., Derived]


@pytest.mark.parametrize(("spindle", "room"), [("30 mm", 0.0), ("24 mm", 6.0), ("30.2 mm", -0.2)])
def test_the_room_is_the_bore_of_the_bearing_less_the_spindle(derived: Make, spindle: str, room: float) -> None:
    """Every part of this shell carries a bearing of 30 mm bore."""
    found = derived({"frame.spindle": spindle})
    for option in found.sides["drive"].options:
        assert option.facts["part.spindle_room"].value == pytest.approx(room)


def test_a_spindle_nobody_stated_leaves_the_room_unknown(derived: Make) -> None:
    assert not any(each.facts["part.spindle_room"].known for each in derived().sides["drive"].options)
