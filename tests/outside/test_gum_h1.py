"""End-gauge calibration, the first worked example of the guide to the expression of uncertainty in measurement.

Source: JCGM 100:2008 (GUM), annex H.1, inputs as in the example file of the GTC package of the New Zealand measurement
standards laboratory (examples/GUM_H1.py); published results: 32 nm, 16 degrees of freedom, 93 nm at 99 %.
"""

from math import sqrt

import pytest
from GTC import dof, type_b, ureal, value
from GTC import uncertainty as gtc_uncertainty
from scipy import stats

from recommender.metrology.budget import Budget, Contribution, combined

LENGTH_NM = 50.000623e6
ALPHA = 11.5e-6
MEAN_TEMPERATURE = -0.1


def _comparator() -> Budget:
    return combined(
        [
            Contribution("repeats", 5.8, degrees=24),
            Contribution("random", 3.9, degrees=5),
            Contribution("systematic", 6.7, degrees=8),
        ]
    )


def _gauge() -> Budget:
    comparator = _comparator()
    return combined(
        [
            Contribution("standard", 25.0, degrees=18),
            Contribution("comparator", comparator.u, degrees=comparator.degrees),
            Contribution("difference of expansion", 1e-6 / sqrt(3), LENGTH_NM * MEAN_TEMPERATURE, degrees=50),
            Contribution("difference of temperature", 0.05 / sqrt(3), LENGTH_NM * ALPHA, degrees=2),
        ]
    )


def test_published_result() -> None:
    made = _gauge()
    assert made.u == pytest.approx(32, abs=0.5)
    assert int(made.degrees) == 16
    assert stats.t.ppf(0.995, int(made.degrees)) == pytest.approx(2.92, abs=0.005)
    assert made.u * stats.t.ppf(0.995, int(made.degrees)) == pytest.approx(93, abs=0.6)


def test_published_contributions() -> None:
    assert _comparator().u == pytest.approx(9.7, abs=0.05)
    assert LENGTH_NM * 0.1 * 1e-6 / sqrt(3) == pytest.approx(2.9, abs=0.05)
    assert LENGTH_NM * ALPHA * 0.05 / sqrt(3) == pytest.approx(16.6, abs=0.05)


def test_against_an_independent_package() -> None:
    standard = ureal(50.000623e6, 25.0, df=18)
    difference = ureal(215.0, 5.8, df=24) + ureal(0.0, 3.9, df=5) + ureal(0.0, 6.7, df=8)
    alpha = ureal(ALPHA, type_b.uniform(2e-6))
    expansion = ureal(0.0, type_b.uniform(1e-6), df=50)
    temperature = ureal(MEAN_TEMPERATURE, 0.2) + ureal(0.0, 0.5 / sqrt(2))
    warmer = ureal(0.0, type_b.uniform(0.05), df=2)
    length = standard + difference - standard * (expansion * temperature + alpha * warmer)
    made = _gauge()
    assert value(length) / 1e6 == pytest.approx(50.000838, abs=5e-7)
    assert made.u == pytest.approx(gtc_uncertainty(length), abs=1e-3)
    assert made.degrees == pytest.approx(dof(length), abs=1e-3)
