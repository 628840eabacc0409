"""Least and greatest interference that one limit allows. Diametral, mm; allowables come in as arguments.

A greatest interference takes no credit for roughness, save where only real closing counts.
"""

from recommender.mechanics.amount import Amount, require_positive


def least_for_pressure(
    pressure: Amount,
    pressure_per_mm: Amount,
    creep: Amount = 1.0,
    roughness_loss: Amount = 0.0,
    thermal_loss: Amount = 0.0,
) -> Amount:
    """Return the interference that still gives `pressure` (MPa) after creep, roughness and temperature."""
    require_positive(pressure_per_mm=pressure_per_mm, creep=creep)
    return pressure / (pressure_per_mm * creep) + roughness_loss + thermal_loss


def greatest_for(allowed: Amount, per_mm: Amount, factor: Amount = 1.0, thermal_gain: Amount = 0.0) -> Amount:
    """Return the interference at which strain, stress or pressure reaches what is allowed.

    `per_mm` is that quantity per mm of interference, `factor` what an opening or a safety factor multiplies
    it by.
    """
    require_positive(per_mm=per_mm, factor=factor)
    return allowed / (factor * per_mm) - thermal_gain


def greatest_for_clearance(
    initial: Amount,
    least_left: Amount,
    closure_factor: Amount,
    oval_loss: Amount = 0.0,
    roughness_loss: Amount = 0.0,
) -> Amount:
    """Return the interference at which the bearing is left with its least clearance (all mm)."""
    require_positive(closure_factor=closure_factor)
    return (initial - least_left - oval_loss) / closure_factor + roughness_loss
