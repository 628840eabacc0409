"""Compressive strength of misaligned fibres.

Source: compositecalculator.com, longitudinal compressive strength: matrix shear modulus 1250 MPa, fibre share
0.6, misalignment 2 degrees, matrix yield strain in shear 0.03 give 1444 MPa.
"""

import pytest

from recommender.mechanics.laminate import kink_strength


def test_two_degrees_as_published() -> None:
    assert kink_strength(1250.0, 0.6, 2.0, 0.03) == pytest.approx(1444, abs=1)


def test_straight_fibres_reach_the_elastic_limit() -> None:
    assert kink_strength(1250.0, 0.6, 0.0, 0.03) == pytest.approx(3125)


def test_a_wrinkle_of_six_degrees_halves_it() -> None:
    """Derived."""
    assert kink_strength(1250.0, 0.6, 6.0, 0.03) == pytest.approx(696, abs=1)


def test_nonsense_is_refused() -> None:
    with pytest.raises(ValueError, match="matrix_share"):
        kink_strength(1250.0, 1.0, 2.0, 0.03)
    with pytest.raises(ValueError, match="misalignment"):
        kink_strength(1250.0, 0.6, -2.0, 0.03)
