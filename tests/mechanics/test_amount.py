import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from recommender.mechanics.amount import ends, middle

NUMBERS = st.lists(st.floats(-1e6, 1e6), min_size=2, max_size=40)


@given(NUMBERS)
def test_the_middle_of_draws_is_their_median(values: list[float]) -> None:
    """Compared with numpy.median."""
    assert middle(np.array(values)) == pytest.approx(float(np.median(values)))


def test_a_number_is_its_own_middle() -> None:
    assert middle(3.5) == 3.5


def test_one_draw_has_both_ends_where_it_lies() -> None:
    assert ends(np.array([3.5])) == (3.5, 3.5)


@given(NUMBERS)
def test_ends_hold_95_per_cent_of_draws(values: list[float]) -> None:
    """Compared with numpy.quantile."""
    assert ends(np.array(values)) == pytest.approx(tuple(np.quantile(values, (0.025, 0.975))))
