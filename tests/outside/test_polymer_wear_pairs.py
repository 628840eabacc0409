"""Can a polymer cup have worn a carbon bore by that much?

Source of the wear factors: compounder's wear table "plastic vs plastic", ASTM D3702, metric. That a polymer
cup is softer than carbon laminate, and that 0.25 mm of slack is not its wear: common practice, no source.
"""

import pytest

from recommender.mechanics.wear import creep_depth, micro_slip_depth

ACETAL = 1.22e-6  # mm3/(N m), against glass-filled nylon
GLASS_FILLED_NYLON = 4.59e-6  # against acetal
NYLON = 2.65e-6  # against acetal
PESSIMISTIC_CARBON = 1e-5  # assumed, twice the largest measured polymer
PEDAL_LOADS = 1e7
LOAD, DIAMETER, LENGTH = 2000.0, 46.0, 10.0
RADIAL_EXCESS = 0.25 / 2


@pytest.mark.parametrize("factor", [ACETAL, NYLON, GLASS_FILLED_NYLON])
def test_quarter_millimetre_is_beyond_every_measured_polymer(factor: float) -> None:
    """Even if the whole slack had been there from the first ride."""
    assert 2 * creep_depth(factor, LOAD, 0.25, PEDAL_LOADS, DIAMETER, LENGTH) < RADIAL_EXCESS
    assert 6 * micro_slip_depth(factor, 10.0, 0.020, PEDAL_LOADS) < RADIAL_EXCESS


def test_quarter_millimetre_is_unlikely_even_for_a_pessimistic_carbon() -> None:
    """Very unlikely, not impossible: the bound comes close."""
    bound = creep_depth(PESSIMISTIC_CARBON, LOAD, 0.25, PEDAL_LOADS, DIAMETER, LENGTH)
    assert bound == pytest.approx(0.11, abs=0.005)
    assert bound < RADIAL_EXCESS


def test_softer_partner_loses_more() -> None:
    """Under the same pressure and slip a bore of a quarter of the wear factor has a fifth of the wear."""
    carbon = GLASS_FILLED_NYLON / 4
    cup = micro_slip_depth(GLASS_FILLED_NYLON, 10.0, 0.020, PEDAL_LOADS)
    bore = micro_slip_depth(carbon, 10.0, 0.020, PEDAL_LOADS)
    assert bore / (bore + cup) == pytest.approx(0.2)


def test_small_slack_may_well_be_wear() -> None:
    """0.03 mm of slack lies inside the bound: nothing may be concluded from it."""
    assert creep_depth(GLASS_FILLED_NYLON, LOAD, 0.25, PEDAL_LOADS, DIAMETER, LENGTH) > 0.03 / 2
