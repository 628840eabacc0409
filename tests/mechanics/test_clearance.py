"""Clearance class from what pressing takes. Classes for a bore over 24 to 30 mm: deep-groove catalogue, table 6.1."""

import pytest

from recommender.mechanics.clearance import Band, all_gone, class_for, left_of

SOLD = {
    "C2": Band(0.001, 0.011),
    "CN": Band(0.005, 0.020),
    "C3": Band(0.013, 0.028),
    "C4": Band(0.023, 0.041),
}
WANTED = Band(0.003, 0.022)


def test_clearance_left_by_hand() -> None:
    assert left_of(SOLD["CN"], Band(0.004, 0.012)) == pytest.approx((-0.007, 0.016))


@pytest.mark.parametrize(
    ("loss", "first"),
    [((0.0, 0.001), "CN"), ((0.004, 0.012), "C3"), ((0.018, 0.022), "C4"), ((-0.002, 0.0), "CN")],
)
def test_more_loss_asks_for_a_looser_class(loss: tuple[float, float], first: str) -> None:
    assert class_for(SOLD, Band(*loss), WANTED)[0].name == first


def test_each_other_class_says_why_not() -> None:
    ordered = {each.name: each for each in class_for(SOLD, Band(0.004, 0.012), WANTED)}
    assert list(ordered) == ["C3", "CN", "C2", "C4"]
    assert ordered["C3"].outside == pytest.approx(0.004)
    assert ordered["CN"].too_tight_by == pytest.approx(0.010)
    assert ordered["CN"].too_loose_by == 0.0
    assert (ordered["C4"].too_tight_by, ordered["C4"].too_loose_by) == pytest.approx((0.0, 0.015))


def test_only_a_loss_beyond_the_largest_class_leaves_nothing() -> None:
    assert not all_gone(SOLD, Band(0.030, 0.060))
    assert all_gone(SOLD, Band(0.042, 0.060))
    assert all_gone(SOLD, Band(0.040, 0.060), least_left=0.002)


def test_a_class_that_is_none_is_refused() -> None:
    with pytest.raises(ValueError, match="no clearance class"):
        class_for({}, Band(0.0, 0.0), WANTED)
    with pytest.raises(ValueError, match="band loss"):
        class_for(SOLD, Band(0.01, 0.0), WANTED)
    with pytest.raises(ValueError, match="band CN"):
        class_for({"CN": Band(0.02, float("nan"))}, Band(0.0, 0.0), WANTED)
