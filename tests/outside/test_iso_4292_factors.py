"""How much two-point and three-point methods show of lobes.

Source: summit formula |1 + cos(n (90 + a/2)) / sin(a/2)| of the three-point method, J. Japan Soc. Precision
Engineering 43/514, p. 1167 (jstage.jst.go.jp, abstract); the methods are those of ISO 4292:1985, whose table of factors
was not read: the figures below are worked out from the formula. The rider formula is our own derivation.
"""

import numpy as np
import pytest

from recommender.metrology.response import lobed, rider_factor, summit_factor, three_point, two_point

TABLE = {
    60: (0, 3, 0, 0, 3, 0, 0, 3, 0),
    72: (0.47, 2.62, 0.38, 1.00, 2.38, 0.62, 1.53, 2.00, 0.70),
    90: (1.00, 2.00, 0.41, 2.00, 1.00, 0, 2.41, 0, 1.00),
    108: (1.38, 1.38, 0, 2.24, 0, 1.38, 1.38, 0, 2.24),
    120: (1.58, 1.00, 0.42, 2.00, 0.15, 2.00, 0.42, 1.00, 1.58),
    180: (2, 0, 2, 0, 2, 0, 2, 0, 2),
}


@pytest.mark.parametrize("angle", TABLE)
def test_summit_factors(angle: int) -> None:
    found = [summit_factor(lobes, angle) for lobes in range(2, 11)]
    assert found == pytest.approx(TABLE[angle], abs=0.005)


def _v_swing(lobes: int, angle: float, *, rider: bool) -> float:
    """Return indicator swing over out-of-roundness of a nearly round lobed part over a V, by its geometry.

    The part rests on the two flanks; the depth of its centre follows from where the flanks touch it.
    """
    turns = np.radians(np.arange(0.0, 360.0, 0.25))
    half = np.radians(angle / 2)
    amplitude = 1e-6

    def form(at):
        return amplitude * np.cos(lobes * at)

    left, right = turns - np.pi / 2 - (np.pi / 2 - half), turns - np.pi / 2 + (np.pi / 2 - half)
    lift = (form(left) + form(right)) / (2 * np.sin(half))
    indicator = lift + form(turns + np.pi / 2) if not rider else lift - form(turns - np.pi / 2)
    return float(np.ptp(indicator) / (2 * amplitude))


@pytest.mark.parametrize("angle", [60, 72, 90, 108, 120])
@pytest.mark.parametrize("lobes", range(2, 11))
def test_factors_are_those_of_a_part_turned_over_a_v(lobes: int, angle: int) -> None:
    assert summit_factor(lobes, angle) == pytest.approx(_v_swing(lobes, angle, rider=False), abs=0.005)
    assert rider_factor(lobes, angle) == pytest.approx(_v_swing(lobes, angle, rider=True), abs=0.005)


@pytest.mark.parametrize("lobes", range(2, 11))
def test_bore_gauges_are_the_two_point_method_and_the_summit_method_over_60_degrees(lobes: int) -> None:
    section, out_of_roundness = lobed(20.5, (lobes, 0.001, 0.0)), 0.002
    turns = np.arange(0.0, 360.0, 0.5)
    two = np.ptp([two_point(section, turn) for turn in turns])
    three = np.ptp([three_point(section, turn).value for turn in turns])
    assert two / out_of_roundness == pytest.approx(summit_factor(lobes, 180), abs=0.005)
    assert three / out_of_roundness == pytest.approx(summit_factor(lobes, 60) * 2 / 3, abs=0.005)


def test_the_v_angle_is_not_the_spacing_of_the_anvils() -> None:
    assert summit_factor(3, 60) == pytest.approx(3)
    assert summit_factor(3, 120) == pytest.approx(1)
