"""Hoop strain of the shell, derived."""

import pytest

from recommender.mechanics.rings import Ring, pressures_per_mm
from recommender.mechanics.strain import (
    clamped_edge_strain,
    edge_bending_strain,
    ovality_bending_strain,
    rigid_insert_strain,
    shell_hoop_strain,
    total_strain,
)


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


def test_edge_of_a_stiff_part_bends_the_wall_as_much_as_it_stretches_it() -> None:
    """0.93 of the hoop strain; glued up to the edge, a thin isotropic wall takes 1.82 of it."""
    assert edge_bending_strain(0.044, 44.0) == pytest.approx(0.93e-3)
    assert clamped_edge_strain(0.044, 44.0, 0.3, 1.0) == pytest.approx(1.816e-3, rel=1e-3)
    assert clamped_edge_strain(0.044, 44.0, 0.3, 4.0) == pytest.approx(2 * 1.816e-3, rel=1e-3)


def test_nonsense_is_refused() -> None:
    with pytest.raises(ValueError, match="diameter"):
        rigid_insert_strain(0.05, 0.0)
    with pytest.raises(ValueError, match="modulus_ratio"):
        clamped_edge_strain(0.05, 44.0, 0.3, 0.0)
