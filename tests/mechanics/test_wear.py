"""Upper bounds of wear, derived from the linear wear law."""

import pytest

from recommender.mechanics.wear import creep_depth, creep_volume, micro_slip_depth, turns_to_grow, worn_depth


def test_creep_bound() -> None:
    assert creep_volume(4.59e-6, 2000.0, 0.25, 1e7) == pytest.approx(72.1, rel=0.005)
    assert creep_depth(4.59e-6, 2000.0, 0.25, 1e7, 46.0, 10.0) == pytest.approx(0.0499, rel=0.005)


@pytest.mark.parametrize(("factor", "expected"), [(1.2e-6, 0.005), (2.65e-6, 0.011), (4.6e-6, 0.018), (1e-5, 0.04)])
def test_micro_slip_bound(factor: float, expected: float) -> None:
    """10 MPa, 20 um there and back, ten million pedal loads: 400 m of slip."""
    assert micro_slip_depth(factor, 10.0, 0.020, 1e7) == pytest.approx(expected, abs=6e-4)
    assert micro_slip_depth(factor, 10.0, 0.020, 1e7) == pytest.approx(worn_depth(factor, 10.0, 400.0))


def test_turns_for_slack_to_grow() -> None:
    assert turns_to_grow(4.59e-6, 2000.0, 46.0, 10.0, 0.02, 0.25) == pytest.approx(6.3e7, rel=0.01)


def test_one_turn_of_creep_agrees_with_the_growth() -> None:
    """Slack grows by twice the depth worn."""
    grown = 2 * creep_depth(4.59e-6, 2000.0, 0.25, 1.0, 46.0, 10.0)
    assert turns_to_grow(4.59e-6, 2000.0, 46.0, 10.0, 0.25, 0.25 + grown) == pytest.approx(1.0, rel=1e-4)


def test_nonsense_is_refused() -> None:
    with pytest.raises(ValueError, match="wear_factor"):
        worn_depth(-1e-6, 10.0, 400.0)
    with pytest.raises(ValueError, match="slack_from"):
        turns_to_grow(4.59e-6, 2000.0, 46.0, 10.0, 0.0, 0.25)
