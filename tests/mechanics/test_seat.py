"""Short seats: factor fitted to finite elements, derived."""

import pytest

from recommender.mechanics.rings import Ring, bore_compliance, outside_compliance
from recommender.mechanics.seat import decay_length, effective_interference, pressure_factor


def test_decay_length_of_a_carbon_shell() -> None:
    assert decay_length(22.0, 3.0, 1.0, 0.3) == pytest.approx(6.3, abs=0.05)


@pytest.mark.parametrize(
    ("length", "ends", "finite_elements"),
    [(7.0, 2, 2.271), (7.0, 1, 1.636), (10.0, 2, 1.890), (10.0, 1, 1.445), (20.0, 1, 1.223)],
)
def test_factor_agrees_with_finite_elements(length: float, ends: int, finite_elements: float) -> None:
    """Finite elements run for this purpose: quadratic axisymmetric elements, rigid insert, no friction."""
    assert pressure_factor(length, ends, 22.0, 3.0, 1.0, 0.3) == pytest.approx(finite_elements, abs=0.01)


def test_seat_as_long_as_the_shell_is_a_plain_ring() -> None:
    assert pressure_factor(10.0, 0, 22.0, 3.0, 1.0, 0.3) == 1.0


@pytest.mark.parametrize(("ends", "formula", "finite_elements"), [(1, 5.69, 5.00), (2, 6.67, 6.41)])
def test_elastic_bearing_is_on_the_high_side_of_finite_elements(
    ends: int, formula: float, finite_elements: float
) -> None:
    """Bearing of 42 mm, 7 mm wide, 0.04 mm tight in carbon 3 mm."""
    bearing = Ring(19.8, 21.0, 208_000.0, 0.3, 12e-6)
    shell = Ring(21.0, 24.0, 55_000.0, 0.3, 3e-6)
    factor = pressure_factor(7.0, ends, 22.5, 3.0, 1.0, 0.3)
    pressure = 0.02 / (bore_compliance(shell) / factor + outside_compliance(bearing))
    assert pressure == pytest.approx(formula, rel=0.01)
    assert finite_elements < pressure < 1.14 * finite_elements


def test_roughness_takes_its_share() -> None:
    assert effective_interference(0.040, 0.006) == pytest.approx(0.034)


def test_a_seat_has_at_most_two_ends() -> None:
    with pytest.raises(ValueError, match="0, 1 or 2 ends"):
        pressure_factor(10.0, 3, 22.0, 3.0, 1.0, 0.3)
    with pytest.raises(ValueError, match="length"):
        pressure_factor(0.0, 1, 22.0, 3.0, 1.0, 0.3)
