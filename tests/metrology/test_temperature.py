import numpy as np
import pytest

from recommender.metrology.temperature import corrected, correction_uncertainty

STEEL = 11.5e-6


@pytest.mark.parametrize(("alpha", "net"), [(23.6e-6, 2.48), (12.3e-6, 0.16), (8.6e-6, -0.59), (-0.5e-6, -2.46)])
def test_bore_and_steel_instrument_five_degrees_warm(alpha: float, net: float) -> None:
    assert (41.0 - corrected(41.0, 25.0, 25.0, alpha, STEEL)) * 1000 == pytest.approx(net, abs=0.01)


@pytest.mark.parametrize(("alpha", "grown"), [(23.6e-6, 4.84), (12.3e-6, 2.52), (8.6e-6, 1.76), (-0.5e-6, -0.10)])
def test_bore_five_degrees_warm_and_instrument_at_twenty(alpha: float, grown: float) -> None:
    assert (41.0 - corrected(41.0, 25.0, 20.0, alpha, STEEL)) * 1000 == pytest.approx(grown, abs=0.01)


def test_nothing_to_correct_at_twenty() -> None:
    assert corrected(41.0, 20.0, 20.0, 23.6e-6, STEEL) == 41.0


def test_uncertainty_is_that_of_sampling() -> None:
    doubts = {"u_alpha_frame": 2e-6, "u_alpha_instrument": 1e-6, "u_frame_temperature": 0.8,
              "u_instrument_temperature": 0.5}
    random = np.random.default_rng(1)
    alpha, steel = random.normal(23.6e-6, 2e-6, 200_000), random.normal(STEEL, 1e-6, 200_000)
    frame, tool = random.normal(26.0, 0.8, 200_000), random.normal(23.0, 0.5, 200_000)
    sampled = np.std(41.0 * (1 + steel * (tool - 20) - alpha * (frame - 20)))
    assert correction_uncertainty(41.0, 26.0, 23.0, 23.6e-6, STEEL, **doubts) == pytest.approx(sampled, rel=0.01)
