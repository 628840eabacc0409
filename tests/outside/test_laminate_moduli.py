"""In-plane moduli and expansion of laminates from their lamina.

Sources: output sample of the open-source laminate tool lamprop, release 2020.12.28, for a lamina of 118 810 and
9 240 MPa; "Introduction to Composite Materials" (1980), quasi-isotropic T300/5208: value from memory, lamina
data from the textbook table "typical mechanical properties of a unidirectional lamina".
"""

import pytest

from recommender.mechanics.laminate import QUASI_ISOTROPIC, Lamina, Ply, even_plies, first_ply_strain, laminate

PUBLISHED = Lamina(118_810.0, 9_240.0, 4_620.0, 0.3, 0.275e-6, 41.4e-6)
T300 = Lamina(181_000.0, 10_300.0, 7_170.0, 0.28, 0.02e-6, 22.5e-6)


def test_cross_ply_as_published() -> None:
    layup = laminate(PUBLISHED, even_plies(0.0, 90.0))
    assert (layup.x, layup.y) == pytest.approx((64_355, 64_355), rel=1e-3)
    assert layup.poisson == pytest.approx(0.0433, rel=1e-3)
    assert (layup.expansion_x, layup.expansion_y) == pytest.approx((3.973e-6, 3.973e-6), rel=1e-3)


def test_quasi_isotropic_of_the_published_lamina() -> None:
    """Derived: 46 442 and 17 731 MPa, 0.310."""
    layup = laminate(PUBLISHED, even_plies(*QUASI_ISOTROPIC))
    assert (layup.x, layup.shear, layup.poisson) == pytest.approx((46_442, 17_731, 0.310), rel=2e-3)


def test_quasi_isotropic_t300() -> None:
    """Textbook 69.7 GPa, 26.9 GPa and 0.30; derived to more digits 69.68, 26.88 and 0.296."""
    layup = laminate(T300, even_plies(*QUASI_ISOTROPIC))
    assert (layup.x, layup.shear, layup.poisson) == pytest.approx((69_680, 26_880, 0.296), rel=1e-3)
    assert layup.x == pytest.approx(layup.y)
    assert layup.shear == pytest.approx(layup.x / 2 / (1 + layup.poisson), rel=1e-9)


def test_mixed_lay_up() -> None:
    """Derived: half along, four tenths at 45 degrees, one tenth across."""
    layup = laminate(T300, [Ply(0.0, 0.5), Ply(45.0, 0.2), Ply(-45.0, 0.2), Ply(90.0, 0.1)])
    assert layup[:4] == pytest.approx((107_000, 43_000, 22_900, 0.406), rel=2e-3)
    assert layup[4:] == pytest.approx((0.41e-6, 3.83e-6), abs=1e-8)


@pytest.mark.parametrize("angle", [0.0, 90.0])
def test_one_direction_gives_its_lamina_back(angle: float) -> None:
    layup = laminate(T300, even_plies(angle))
    along, across = (layup.x, layup.y) if angle == 0 else (layup.y, layup.x)
    assert (along, across, layup.shear) == pytest.approx((181_000, 10_300, 7_170))


def test_first_layer_across_the_load_cracks_at_four_tenths_of_a_per_cent() -> None:
    """Derived: 40 MPa over 10 300 MPa."""
    assert first_ply_strain(40.0, 10_300.0) == pytest.approx(0.0039, abs=2e-5)


def test_a_lay_up_that_is_none_is_refused() -> None:
    with pytest.raises(ValueError, match="balanced"):
        laminate(T300, even_plies(0.0, 45.0))
    with pytest.raises(ValueError, match="add up to one"):
        laminate(T300, [Ply(0.0, 0.5)])
    with pytest.raises(ValueError, match="across"):
        laminate(T300._replace(across=0.0), even_plies(0.0))
