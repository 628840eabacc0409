"""What must never happen, whatever the numbers: order that a bench relies on."""

from hypothesis import given, settings
from hypothesis import strategies as st

from recommender.mechanics.bearing import clearance_left, closure_factor, oval_loss
from recommender.mechanics.bounds import greatest_for
from recommender.mechanics.interference import interference, thermal_change_of_stack
from recommender.mechanics.oval import share_of_race
from recommender.mechanics.rings import Ring, pressures_per_mm, stack_pressures
from recommender.mechanics.strain import ovality_bending_strain, shell_hoop_strain, total_strain
from recommender.mechanics.window import od_window

STEEL_EXPANSION = st.floats(11e-6, 13e-6)
WALLS = st.floats(1.5, 8.0)
MODULI = st.floats(20e3, 120e3)
BEARING = Ring(19.8, 21.0, 208e3, 0.3, 12e-6)
CUP = Ring(21.0, 23.0, 69e3, 0.33, 23.4e-6)
steady = settings(derandomize=True, deadline=None, max_examples=200)


def shell(inner: float, wall: float, modulus: float, expansion: float = 3e-6) -> Ring:
    """A shell round a part."""
    return Ring(inner, inner + wall, modulus, 0.3, expansion)


@steady
@given(bore=st.floats(45.8, 46.2), more=st.floats(0.0, 0.2), wall=WALLS, modulus=MODULI)
def test_a_larger_bore_never_raises_pressure_or_strain(
    bore: float, more: float, wall: float, modulus: float
) -> None:
    def fitted(diameter: float) -> tuple[float, float]:
        ring = shell(diameter / 2, wall, modulus)
        cup = Ring(21.0, diameter / 2, 69e3, 0.33, 23.4e-6)
        pressure = stack_pressures([BEARING, cup, ring], [0.0, interference(46.2, diameter)])[-1]
        return float(pressure), float(shell_hoop_strain(ring, pressure))

    small, large = fitted(bore), fitted(bore + more)
    assert large[0] <= small[0] + 1e-9
    assert large[1] <= small[1] + 1e-12


@steady
@given(wall=WALLS, thinner=st.floats(0.0, 1.4), modulus=MODULI, factor=st.floats(1.0, 8.0))
def test_a_thinner_wall_never_raises_the_diameter_that_strain_allows(
    wall: float, thinner: float, modulus: float, factor: float
) -> None:
    def largest(of_wall: float) -> float:
        ring = shell(23.0, of_wall, modulus)
        per_mm = shell_hoop_strain(ring, pressures_per_mm([BEARING, CUP, ring])[-1])
        return float(od_window(45.96, 46.0, 0.0, greatest_for(0.003, per_mm, factor))[1])

    assert largest(wall - thinner) <= largest(wall) + 1e-12


@steady
@given(
    ovality=st.floats(0.0, 0.2),
    more=st.floats(0.0, 0.2),
    wall=WALLS,
    modulus=MODULI,
    tight=st.floats(-0.05, 0.1),
)
def test_more_ovality_never_raises_the_clearance_left(
    ovality: float, more: float, wall: float, modulus: float, tight: float
) -> None:
    rings = [BEARING, CUP, shell(23.0, wall, modulus)]
    share = share_of_race(rings)
    closing = closure_factor(BEARING, pressures_per_mm(rings)[0])

    def left(out_of_round: float) -> float:
        return float(clearance_left(0.020, closing, tight, oval_loss=oval_loss(out_of_round, share)))

    assert 0 <= share <= 1
    assert left(ovality + more) <= left(ovality)


@steady
@given(
    ovality=st.floats(0.0, 0.2),
    more=st.floats(0.0, 0.2),
    hoop=st.floats(0.0, 0.003),
    factor=st.floats(1.0, 8.0),
)
def test_more_ovality_or_an_opening_never_lowers_the_strain(
    ovality: float, more: float, hoop: float, factor: float
) -> None:
    round_enough = total_strain(hoop, ovality_bending_strain(ovality, 24.5, 3.0))
    worse = total_strain(hoop, ovality_bending_strain(ovality + more, 24.5, 3.0), factor)
    assert worse >= round_enough


@steady
@given(colder=st.floats(0.0, 60.0), steel=STEEL_EXPANSION, wall=WALLS)
def test_cold_never_loosens_steel_in_aluminium_nor_tightens_it_in_carbon(
    colder: float, steel: float, wall: float
) -> None:
    bearing = Ring(19.8, 21.0, 208e3, 0.3, steel)
    in_aluminium = [bearing, shell(21.0, wall, 69e3, 23.4e-6)]
    in_carbon = [bearing, shell(21.0, wall, 55e3, 3e-6)]
    assert stack_pressures(in_aluminium, [0.02], -colder)[0] >= stack_pressures(in_aluminium, [0.02])[0]
    assert stack_pressures(in_carbon, [0.02], -colder)[0] <= stack_pressures(in_carbon, [0.02])[0]
    assert thermal_change_of_stack(in_aluminium, -colder) >= 0 >= thermal_change_of_stack(in_carbon, -colder)
