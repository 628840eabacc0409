import numpy as np
import pytest
from scipy import stats

from recommender.metrology.agreement import agreement, pairs

TWO, THREE = "two_point", "three_point"


def _grid(bench, **options):
    return [*bench.read(TWO, (0, 60, 120), (3, 8, 13), **options),
            *bench.read(THREE, (0, 40, 80), (3, 8, 13), **options)]


def _noisy(readings, seed: int):
    noise = np.random.default_rng(seed)
    return [reading._replace(value=reading.value + noise.normal() * reading.u) for reading in readings]


def test_exact_readings_agree(bench) -> None:
    found = agreement(bench.sheet(*_grid(bench)))
    assert found.chi2 == pytest.approx(0.0, abs=1e-12)
    assert found.degrees == 18 - 7
    assert found.probability == pytest.approx(1.0, abs=0.01)


def test_chi_square_of_honest_readings_is_spread_as_it_must_be(bench) -> None:
    made = [agreement(bench.sheet(*_noisy(_grid(bench, offset_u=0), seed))) for seed in range(150)]
    chi2 = [each.chi2 for each in made]
    assert stats.kstest(chi2, stats.chi2(made[0].degrees).cdf).pvalue > 0.01


@pytest.mark.parametrize("culprit", [0, 5, 11, 17])
def test_a_slipped_reading_is_named(bench, culprit: int) -> None:
    readings = _noisy(_grid(bench), 3)
    readings[culprit] = readings[culprit]._replace(value=readings[culprit].value + 0.02)
    found = agreement(bench.sheet(*readings))
    assert found.probability < 1e-6
    assert found.worst is not None
    assert found.worst[0] == culprit
    assert found.worst[1] > 3


def test_normalised_residual_of_an_honest_reading_has_unit_spread(bench) -> None:
    pulls = []
    for seed in range(300):
        readings = _noisy(bench.read(TWO, (0,), (8, 8), u=0.001), seed)
        worst = agreement(bench.sheet(*readings)).worst
        assert worst is not None
        pulls.append(worst[1])
    assert np.mean(np.square(pulls)) == pytest.approx(1.0, abs=0.2)


def test_nothing_left_over_is_no_disagreement(bench) -> None:
    found = agreement(bench.sheet(*bench.read(TWO, (0,), (8,))))
    assert (found.degrees, found.probability, found.worst) == (0, 1.0, None)


def test_two_means_and_their_uncertainties(bench) -> None:
    first = [reading._replace(value=41.012, shared=()) for reading in bench.read(THREE, (0, 40, 80), (8,), u=1e-6)]
    second = [reading._replace(value=41.020, shared=()) for reading in bench.read(TWO, (0, 60, 120), (8,), u=1e-6)]
    k = 1.96
    first = [reading._replace(shared=(("instrument mic", 0.004 / k),)) for reading in first]
    second = [reading._replace(shared=(("instrument two", 0.006 / k),)) for reading in second]
    rigid = bench.defaults._replace(curvature_sd=1e-9, taper_sd=1e-9)
    found, = pairs(bench.sheet(*first, *second, assumptions=rigid))
    assert (found.first, found.second) == ("mic", "two")
    assert found.difference == pytest.approx(0.008, abs=1e-6)
    assert found.e_n == pytest.approx(1.109, abs=0.001)


def test_an_error_both_instruments_share_does_not_excuse_their_difference(bench) -> None:
    readings = _grid(bench)
    shared = [reading._replace(shared=(*reading.shared, ("temperature", 0.05))) for reading in readings]
    alone, = pairs(bench.sheet(*readings))
    together, = pairs(bench.sheet(*shared))
    assert together.e_n == pytest.approx(alone.e_n)


def test_a_difference_only_the_two_means_can_show_is_seen(bench) -> None:
    off = [reading._replace(value=reading.value + 0.1) for reading in bench.read(TWO, (0, 60, 120), (3, 8, 13))]
    sheet = bench.sheet(*bench.read(THREE, (0, 120, 240), (3, 8, 13)), *off)
    assert agreement(sheet).probability < 1e-6


@pytest.mark.parametrize("off", [0.005, 0.01, 0.02, 0.04])
def test_how_likely_two_means_lie_so_far_apart_is_the_normal_probability_of_that(bench, off: float) -> None:
    """Compared with scipy: both tails beyond the difference over its standard uncertainty."""
    moved = [reading._replace(value=reading.value + off) for reading in bench.read(TWO, (0, 60, 120), (3, 8, 13))]
    sheet = bench.sheet(*bench.read(THREE, (0, 120, 240), (3, 8, 13)), *moved)
    found, = pairs(sheet)
    assert agreement(sheet).probability == pytest.approx(2 * stats.norm.sf(1.96 * found.e_n), rel=1e-6)
