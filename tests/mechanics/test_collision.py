"""An empty window says which limits collide and what would open it."""

import pytest

from recommender.mechanics.collision import collision, relief
from recommender.mechanics.window import BoreSize, Bound

BORE = BoreSize(45.950, 45.980, 45.990)
LEAST = {"grip": Bound(0.020, "mean"), "contact": Bound(0.000, "widest")}
GREATEST = {"clearance": Bound(0.030, "inscribed"), "strain": Bound(0.090, "inscribed")}


def test_two_limits_collide() -> None:
    """Grip asks for 46.000, clearance allows 45.980; 0.030 of it is the bore's form."""
    found = collision(BORE, LEAST, GREATEST)
    assert found is not None
    assert (found.low_limit, found.high_limit) == ("grip", "clearance")
    assert (found.short_by, found.by_form) == pytest.approx((0.020, 0.030))


def test_what_would_open_it() -> None:
    """Without the clearance limit strain allows 46.040: 0.040 of room. Without grip it still stays shut."""
    found = collision(BORE, LEAST, GREATEST)
    assert found is not None
    assert [each.what for each in found.openers] == ["clearance"]
    assert found.openers[0].width == pytest.approx(0.040)


def test_the_tolerance_counts_as_room_needed() -> None:
    wide = {"clearance": Bound(0.070, "inscribed")}
    assert collision(BORE, LEAST, wide) is None
    found = collision(BORE, LEAST, wide, width_needed=0.025)
    assert found is not None
    assert found.short_by == pytest.approx(0.005)
    assert [each.what for each in found.openers] == ["grip"]


def test_both_openers_come_with_the_greater_first() -> None:
    greatest = {"clearance": Bound(0.0495, "inscribed"), "strain": Bound(0.055, "inscribed")}
    found = collision(BORE, LEAST, greatest)
    assert found is not None
    assert [each.what for each in found.openers] == ["grip", "clearance"]


def test_the_only_limit_of_a_side_is_never_left_out() -> None:
    found = collision(BORE, {"grip": LEAST["grip"]}, {"clearance": GREATEST["clearance"]})
    assert found is not None
    assert found.openers == ()


def test_a_looser_bearing_class_gives_its_room() -> None:
    looser = relief(BORE, LEAST, GREATEST, {"clearance": Bound(0.060, "inscribed")})
    assert looser.width == pytest.approx(0.010)
    with pytest.raises(ValueError, match="no limit ring"):
        relief(BORE, LEAST, GREATEST, {"ring": Bound(0.060, "inscribed")})
