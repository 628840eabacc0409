"""Hoop strain of the shell, derived."""

import numpy as np
import pytest

from recommender.mechanics.rings import Ring, pressures_per_mm
from recommender.mechanics.strain import (
    faded_factor,
    ovality_bending_strain,
    port_factor,
    rigid_insert_strain,
    shell_hoop_strain,
    total_strain,
)

RATIOS = (0.125, 0.25, 0.75)
FACTORS = (7.6, 5.2, 3.5)


def test_shell_takes_its_share_of_the_interference() -> None:
    """0.0163 per mm for an aluminium cup with bearing in carbon 3 mm."""
    shell = Ring(23.0, 26.0, 55_000.0, 0.30, 3e-6)
    rings = [Ring(19.8, 21.0, 208_000.0, 0.3, 0.0), Ring(21.0, 23.0, 69_000.0, 0.33, 0.0), shell]
    assert shell_hoop_strain(shell, pressures_per_mm(rings)[-1]) == pytest.approx(0.0163, abs=5e-5)


def test_short_seat_shares_the_interference_between_stiffer_shell_and_cup() -> None:
    """More pressure, but less strain than a plain ring takes of the same interference."""
    shell = Ring(23.0, 26.0, 55_000.0, 0.30, 3e-6)
    rings = [Ring(21.0, 23.0, 69_000.0, 0.33, 0.0), shell]
    plain = shell_hoop_strain(shell, pressures_per_mm(rings)[-1])
    short = shell_hoop_strain(shell, pressures_per_mm(rings, outermost_stiffening=1.9)[-1], 1.9)
    assert plain / 1.9 < short < plain


def test_very_stiff_insert_leaves_all_of_it_to_the_shell() -> None:
    shell = Ring(23.0, 26.0, 55_000.0, 0.30, 3e-6)
    pressure = 0.05 * pressures_per_mm([Ring(0.0, 23.0, 1e12, 0.3, 0.0), shell])[0]
    assert shell_hoop_strain(shell, pressure) == pytest.approx(rigid_insert_strain(0.05, 46.0), rel=1e-5)


def test_ported_shell_reaches_its_strain_limit_at_46_um() -> None:
    """Rule of thumb: limit 0.3 %, port factor 3, 46 mm."""
    assert total_strain(rigid_insert_strain(0.046, 46.0), 0.0, 3.0) == pytest.approx(0.003)


def test_oval_bore_pressed_round_bends_the_free_shell() -> None:
    """Ovality 0.8 mm, 0.04 mm tight, wall 3 mm on 41 mm; finite elements give -0.0009 to +0.00285."""
    bending = ovality_bending_strain(0.8, 22.0, 3.0)
    hoop = rigid_insert_strain(0.04, 41.0)
    assert total_strain(hoop, bending) == pytest.approx(0.00284, abs=5e-6)
    assert total_strain(hoop, -bending) == pytest.approx(-0.0009, abs=5e-5)


@pytest.mark.parametrize(
    ("ligament", "expected"), [(1.0, 7.6), (2.0, 5.2), (4.0, 4.35), (6.0, 3.5), (60.0, 3.5), (0.9, np.inf)]
)
def test_port_factor_between_its_table_rows(ligament: float, expected: float) -> None:
    assert port_factor(ligament, 8.0, RATIOS, FACTORS) == pytest.approx(expected)


def test_port_factor_over_draws() -> None:
    factors = port_factor(np.array([1.0, 6.0]), 8.0, RATIOS, FACTORS)
    assert factors == pytest.approx([7.6, 3.5])


def test_factor_fades_outside_one_decay_length() -> None:
    assert faded_factor(3.5, 0.0, 6.3) == 3.5
    assert faded_factor(3.5, 6.3, 6.3) == 3.5
    assert faded_factor(3.5, 12.6, 6.3) == pytest.approx(1 + 2.5 / np.e)
    assert faded_factor(3.5, 100.0, 6.3) == pytest.approx(1.0, abs=1e-5)


def test_nonsense_is_refused() -> None:
    with pytest.raises(ValueError, match="diameter"):
        rigid_insert_strain(0.05, 0.0)
    with pytest.raises(ValueError, match="rising ratio"):
        port_factor(2.0, 8.0, (0.5, 0.25), (3.5, 5.2))
    with pytest.raises(ValueError, match="ligament"):
        port_factor(-1.0, 8.0, RATIOS, FACTORS)
