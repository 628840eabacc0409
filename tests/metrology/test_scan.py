"""Bores from scanned points: circles of the points themselves, lobes, and the largest cylinder."""

import numpy as np
import pytest

from recommender.metrology.response import lobed
from recommender.metrology.scan import cylinder, from_polar, lobes, section

ANGLES = np.arange(0.0, 360.0, 2.5)


def scanned(radius: float = 20.5, *form, centre=(0.01, -0.02)):
    return from_polar(lobed(radius, *form)(np.radians(ANGLES)), ANGLES, centre)


@pytest.mark.parametrize(
    ("form", "loss"),
    [((2, 0.010, 15), 0.010), ((3, 0.010, 20), 0.010), ((5, 0.010, 4), 0.010), ((7, 0.010, 60), 0.010)],
)
def test_a_scan_sees_every_number_of_lobes(form, loss: float) -> None:
    found = section(scanned(20.5, form), depth=3.0)
    assert found.depth == 3.0
    assert found.least_squares.diameter == pytest.approx(41.0, abs=2e-5)
    assert found.inscribed.diameter == pytest.approx(41.0 - 2 * loss, abs=3e-4)
    assert found.circumscribed.diameter == pytest.approx(41.0 + 2 * loss, abs=3e-4)
    assert found.zone.width == pytest.approx(2 * loss, abs=3e-4)
    assert found.peak_to_valley == pytest.approx(2 * loss, abs=3e-4)
    amplitudes = lobes(scanned(20.5, form), 8)
    assert amplitudes.pop(form[0]) == pytest.approx(2 * loss, rel=1e-3)
    assert max(amplitudes.values()) < 2e-5


def test_lobes_are_told_up_to_seven_unless_more_are_asked_for() -> None:
    assert sorted(lobes(scanned())) == [2, 3, 4, 5, 6, 7]


def test_circles_keep_their_order() -> None:
    found = section(scanned(20.5, (2, 0.011, 0), (3, 0.005, 40), (5, 0.003, 0)))
    assert found.inscribed.diameter < found.least_squares.diameter < found.circumscribed.diameter
    assert found.zone.width <= found.peak_to_valley
    assert found.widest_gap == pytest.approx(2.5, abs=0.01)
    assert section(np.delete(scanned(), [7, 8, 9], axis=0)).widest_gap == pytest.approx(10.0, abs=0.01)


def test_a_tilted_tapered_bore_takes_less_than_its_tightest_section() -> None:
    deep = [(z, scanned(20.5 - 0.0005 * z, (2, 0.005, 30), centre=(0.001 * z, 0.0))) for z in (1.0, 5.0, 9.0)]
    found = cylinder(deep)
    assert found.low <= found.high + 1e-9
    assert found.high == pytest.approx(2 * (20.5 - 0.0045 - 0.005), abs=1e-4)
    assert found.low == pytest.approx(found.high, abs=1e-4)
    assert found.offset == pytest.approx(0.008, abs=1e-5)
    assert found.taper == pytest.approx(0.008, abs=1e-5)


def test_a_bent_bore_leaves_a_gap_between_the_bounds() -> None:
    bent = [(z, scanned(20.5, centre=(0.004 * (z == 5.0), 0.0))) for z in (1.0, 5.0, 9.0)]
    found = cylinder(bent)
    assert found.low < found.high - 0.002


def test_points_that_do_not_go_round_are_refused() -> None:
    with pytest.raises(ValueError, match="round"):
        section(scanned()[:40])
    with pytest.raises(ValueError, match="two depths"):
        cylinder([(1.0, scanned())])
    with pytest.raises(ValueError, match="7 lobes need at least 21 points, there are 18"):
        lobes(scanned()[::8], 7)
