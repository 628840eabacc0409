from math import inf, sqrt

import pytest

from recommender.metrology.budget import Contribution, combined


def test_budget_of_a_three_point_micrometer_in_an_aluminium_shell() -> None:
    made = combined([
        Contribution("error limit", 4 / sqrt(3)),
        Contribution("setting ring", 0.5),
        Contribution("resolution", 1 / sqrt(12)),
        Contribution("repeats", 2 / sqrt(3), degrees=2),
        Contribution("temperature", 2 / sqrt(3), sensitivity=41e3 * (23.6e-6 - 11.5e-6)),
    ])
    assert made.u == pytest.approx(2.707, abs=0.001)
    assert made.degrees == pytest.approx(60.4, abs=0.1)


def test_without_any_counted_repeats_the_degrees_have_no_end() -> None:
    assert combined([Contribution("ring", 3.0), Contribution("zero", 4.0)]) == (5.0, inf)
