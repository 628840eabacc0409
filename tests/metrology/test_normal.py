import numpy as np
import pytest
from scipy import stats

from recommender.metrology.normal import bell, chi_square_survival, normal_cdf, normal_cdfs


@pytest.mark.parametrize("score", [-8.0, -1.96, 0.0, 0.5, 3.09])
def test_normal_cdf(score: float) -> None:
    assert normal_cdf(score) == pytest.approx(stats.norm.cdf(score), rel=1e-12)
    assert normal_cdfs(np.array([score]))[0] == normal_cdf(score)
    assert bell(np.array([score]))[0] == pytest.approx(stats.norm.pdf(score) / stats.norm.pdf(0), rel=1e-12)


@pytest.mark.parametrize("degrees", [1, 2, 3, 6, 7, 40])
@pytest.mark.parametrize("value", [1e-6, 0.5, 3.0, 12.0, 80.0])
def test_chi_square(degrees: int, value: float) -> None:
    assert chi_square_survival(value, degrees) == pytest.approx(stats.chi2.sf(value, degrees), rel=1e-10)


def test_chi_square_of_nothing_is_certain() -> None:
    assert chi_square_survival(0.0, 5) == 1.0
