"""What must never happen, whatever the numbers: order that a bench relies on."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from recommender.mechanics.bearing import clearance_left, closure_factor, oval_loss
from recommender.mechanics.bounds import greatest_for
from recommender.mechanics.clearance import Band, class_for
from recommender.mechanics.interference import interference, thermal_change_of_stack
from recommender.mechanics.making import target
from recommender.mechanics.openings import PLAIN, Factors, OpeningTable, Row, port, worst
from recommender.mechanics.orthotropic import Direction, OrthotropicRing
from recommender.mechanics.oval import contact, contact_limits, share_of_race
from recommender.mechanics.rings import Ring, pressures_per_mm, stack_pressures
from recommender.mechanics.strain import ovality_bending_strain, shell_hoop_strain, total_strain
from recommender.mechanics.taper import Fit, geometric_contact, mean_interference, push_in_along
from recommender.mechanics.window import Window, od_window

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
def test_a_larger_bore_never_raises_pressure_or_strain(bore: float, more: float, wall: float, modulus: float) -> None:
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


PORTS = OpeningTable((Row(0.125, Factors(7.6, 1.8)), Row(0.25, Factors(5.2, 1.7)), Row(0.75, Factors(3.5, 1.3))))


@steady
@given(
    ligament=st.floats(1.0, 20.0),
    less=st.floats(0.0, 19.0),
    size=st.floats(2.0, 8.0),
    allowed=st.floats(1e-3, 4e-3),
)
def test_a_port_never_widens_the_window_and_a_thinner_ligament_never_either(
    ligament: float, less: float, size: float, allowed: float
) -> None:
    per_mm = shell_hoop_strain(shell(23.0, 3.0, 55e3), pressures_per_mm([BEARING, CUP, shell(23.0, 3.0, 55e3)])[-1])

    def width(factors: Factors) -> float:
        greatest = min(
            float(greatest_for(allowed, per_mm, factors.tension)),
            float(greatest_for(allowed, per_mm, max(float(factors.compression), 1e-9))),
        )
        low, high = od_window(45.96, 46.0, 0.0, greatest)
        return float(high - low)

    near = port(max(ligament - less, 0.0), size, PORTS)
    assert width(near) <= width(port(ligament, size, PORTS)) <= width(PLAIN)
    assert width(worst([near, Factors(2.0, 3.0, 0.5)])) <= width(near)


@steady
@given(
    tight=st.floats(-0.1, 0.15),
    larger=st.floats(0.0, 0.1),
    taper=st.floats(-0.1, 0.1),
    depth=st.floats(0.0, 10.0),
)
def test_a_larger_bore_never_raises_grip_in_a_taper(tight: float, larger: float, taper: float, depth: float) -> None:
    small, large = Fit(tight, tight + taper, 10.0), Fit(tight - larger, tight + taper - larger, 10.0)
    assert mean_interference(large) <= mean_interference(small) + 1e-12
    assert geometric_contact(large) <= geometric_contact(small) + 1e-9
    assert push_in_along(large, depth, 100.0, 0.2, 46.0) <= push_in_along(small, depth, 100.0, 0.2, 46.0) + 1e-6
    assert mean_interference(small) >= max((small.mouth + small.bottom) / 2, 0.0) - 1e-12


@steady
@given(
    ovality=st.floats(0.0, 0.5),
    more=st.floats(0.0, 0.5),
    tight=st.floats(0.001, 0.1),
    less=st.floats(0.0, 0.05),
)
def test_more_ovality_or_less_interference_never_makes_contact_surer(
    ovality: float, more: float, tight: float, less: float
) -> None:
    order = ("kept", "cannot_be_told", "lost")
    limits = contact_limits([BEARING, CUP, shell(23.0, 3.0, 55e3)])
    better, worse = contact(ovality, tight, limits), contact(ovality + more, tight - less, limits)
    assert order.index(better) <= order.index(worse)


@steady
@given(loss=st.floats(0.0, 0.05), more=st.floats(0.0, 0.05), spread=st.floats(0.0, 0.01))
def test_more_loss_never_asks_for_a_tighter_bearing(loss: float, more: float, spread: float) -> None:
    sold = {"CN": Band(0.005, 0.020), "C3": Band(0.013, 0.028), "C4": Band(0.023, 0.041)}
    order = list(sold)
    little = class_for(sold, Band(loss, loss + spread), Band(0.003, 0.015))[0]
    much = class_for(sold, Band(loss + more, loss + more + spread), Band(0.003, 0.015))[0]
    assert order.index(much.name) >= order.index(little.name)
    assert much.left.greatest <= max(band.greatest for band in sold.values())


@steady
@given(
    low=st.floats(45.9, 46.1),
    width=st.floats(-0.05, 0.1),
    wanted=st.floats(45.8, 46.2),
    tolerance=st.floats(0.001, 0.04),
)
def test_a_target_lies_in_its_window_and_is_as_wide_as_its_tolerance(
    low: float, width: float, wanted: float, tolerance: float
) -> None:
    window = Window(low, low + width, "a", "b")
    made = target(window, wanted, tolerance)
    if made is None:
        assert width < tolerance + 1e-12
        return
    assert window.low - 1e-12 <= made.low < made.high <= window.high + 1e-12
    assert made.high - made.low == pytest.approx(tolerance)


@steady
@given(radial=st.floats(5e3, 60e3), hoop=st.floats(20e3, 120e3), wall=WALLS, colder=st.floats(0.0, 60.0))
def test_laminate_holds_between_the_rings_of_its_two_moduli(
    radial: float, hoop: float, wall: float, colder: float
) -> None:
    laminate = OrthotropicRing(
        23.0,
        23.0 + wall,
        Direction(hoop, 3e-6),
        Direction(radial, 3e-6),
        Direction(hoop, 3e-6),
        0.3,
        0.3,
        0.3,
    )
    pressure = stack_pressures([BEARING, CUP, laminate], [0.0, 0.05], -colder)[-1]
    bounds = [
        stack_pressures([BEARING, CUP, shell(23.0, wall, modulus)], [0.0, 0.05], -colder)[-1]
        for modulus in (min(radial, hoop), max(radial, hoop))
    ]
    assert min(bounds) * 0.98 - 0.02 <= pressure <= max(bounds) * 1.02 + 0.02
