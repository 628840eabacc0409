"""Acceptance of ball bearings by a measured error motion, and three single items against limits.

Source: JCGM 106:2012, 9.5.4 (limit 2 um, production gamma with mean 1 um and shape 4, measurement 0.25 um), with the
numbers of the worked notebook in the suncal repository of Sandia National Laboratories (doc/API Examples); the single
items are examples of its clause 7, from memory.
"""

from collections.abc import Callable

import numpy as np
import pytest
from scipy import integrate, stats
from scipy.optimize import brentq

from recommender.metrology.conformity import conformity, conformity_of_normal

LIMIT, U = 2.0, 0.25
PRODUCTION = stats.gamma(4, scale=0.25)


def _accepted(true: float, acceptance: float) -> float:
    """Return the probability that an item of this error motion is measured at or below the acceptance limit."""
    found = conformity_of_normal(true, U, None, acceptance).probability
    assert found is not None
    return found


def _share(of: Callable[[float], float], low: float, high: float) -> float:
    return float(integrate.quad(lambda true: PRODUCTION.pdf(true) * of(true), low, high, epsabs=1e-12)[0])


def _consumer_risk(acceptance: float) -> float:
    return _share(lambda true: _accepted(true, acceptance), LIMIT, 12.0)


def _producer_risk(acceptance: float) -> float:
    return _share(lambda true: 1 - _accepted(true, acceptance), 0.0, LIMIT)


def test_share_of_bearings_out_of_limit() -> None:
    draws = PRODUCTION.ppf((np.arange(4096) + 0.5) / 4096)
    found = conformity(draws, np.full(4096, 1 / 4096), None, LIMIT)
    assert found.probability == pytest.approx(1 - 0.0424, abs=2e-4)


def test_risk_of_the_customer_when_everything_up_to_the_limit_is_accepted() -> None:
    assert _consumer_risk(LIMIT) == pytest.approx(0.0080, abs=1e-4)


def test_acceptance_limit_for_a_risk_of_one_in_a_thousand() -> None:
    acceptance = brentq(lambda limit: _consumer_risk(limit) - 0.001, 1.2, 2.0)
    assert acceptance == pytest.approx(1.6718, abs=1e-4)
    assert _producer_risk(LIMIT) == pytest.approx(0.017, abs=5e-4)
    assert _producer_risk(acceptance) == pytest.approx(0.075, abs=5e-4)


@pytest.mark.parametrize(
    ("value", "u", "lower", "upper", "probability"),
    [(-5.47, 0.05, None, -5.40, 0.919), (509.7, 8.6, 490.0, None, 0.989), (13.6, 1.8, 12.5, 16.3, 0.663)],
)
def test_single_items(value: float, u: float, lower: float | None, upper: float | None, probability: float) -> None:
    assert conformity_of_normal(value, u, lower, upper).probability == pytest.approx(probability, abs=5e-4)
