from itertools import combinations

import numpy as np
import pytest
from scipy import stats

from recommender.metrology.scores import normal_scores


def test_columns_are_centred_of_unit_spread_and_uncorrelated() -> None:
    made = normal_scores(24)
    assert made.shape == (4096, 24)
    assert np.abs(made.mean(axis=0)).max() < 0.005
    assert np.abs(made.std(axis=0) - 1).max() < 0.01
    correlation = np.corrcoef(made.T) - np.eye(24)
    assert np.abs(correlation).max() < 0.01


def test_every_column_is_normal() -> None:
    for column in normal_scores(28).T:
        assert stats.kstest(column, "norm").statistic < 1e-3


def test_two_columns_together_are_spread_better_than_by_chance() -> None:
    made = normal_scores(9)
    for first, second in combinations(range(9), 2):
        one, two = made[:, first], made[:, second]
        assert stats.kstest((one - two) / np.sqrt(2), "norm").statistic < 0.0085
        assert stats.kstest((one + two) / np.sqrt(2), "norm").statistic < 0.0085
        assert stats.kstest(np.hypot(one, two), "rayleigh").statistic < 0.0085


def test_first_columns_do_not_depend_on_how_many_are_asked_for() -> None:
    assert np.array_equal(normal_scores(24)[:, :9], normal_scores(9))


def test_scores_are_kept_and_cannot_be_written() -> None:
    assert normal_scores(9) is normal_scores(9)
    with pytest.raises(ValueError, match=r"read-only"):
        normal_scores(9)[0, 0] = 1.0


@pytest.mark.parametrize(("dimensions", "count"), [(0, 4096), (29, 4096), (9, 1000), (9, 1)])
def test_what_cannot_be_made_is_refused(dimensions: int, count: int) -> None:
    with pytest.raises(ValueError, match=r"dimensions|power of two"):
        normal_scores(dimensions, count)
