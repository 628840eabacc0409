"""What pressing does to a ball bearing: closing of its raceway, clearance left, stress in its outer ring."""

import numpy as np

from recommender.mechanics.amount import Amount, require_positive
from recommender.mechanics.rings import Ring, bore_closure, hoop_stress_at_bore


def mean_raceway_diameter(bore: Amount, outside: Amount) -> Amount:
    """Return the mean diameter of the outer raceway (mm). Source: general bearing catalogue, table 8.7."""
    require_positive(bore=bore, ring=outside - bore)
    return (bore + 4 * outside) / 5


def closure_factor(outer_ring: Ring, pressure_per_mm: Amount) -> Amount:
    """Return by how much the raceway closes per mm of interference, both on diameter.

    `outer_ring` runs from the mean raceway to the bearing's outside; `pressure_per_mm` is the pressure on
    that ring per mm of interference wherever the interference is counted (MPa/mm).
    """
    return bore_closure(outer_ring, 0.0, pressure_per_mm)


def oval_loss(ovality: Amount, share: Amount) -> Amount:
    """Return the clearance lost on the short axis (mm) to an ovality of the bore (mm, on diameter).

    `share` is the part of it that the race takes, see `oval.share_of_race`.
    """
    return ovality / 2 * share


def temperature_loss(raceway_diameter: Amount, inner_warmer: Amount, expansion: Amount) -> Amount:
    """Return the clearance lost (mm) while the inner ring runs warmer (K) than the outer one.

    `expansion` is the ring steel's (1/K). Source: general bearing catalogue, section 8.2.2.
    """
    require_positive(raceway_diameter=raceway_diameter)
    return expansion * inner_warmer * raceway_diameter


def clearance_left(
    initial: Amount,
    closure_factor: Amount,
    interference: Amount,
    seat_closing: Amount = 0.0,
    seat_interference: Amount = 0.0,
    oval_loss: Amount = 0.0,
) -> Amount:
    """Return the radial internal clearance after pressing (mm), negative where the bearing is preloaded.

    `interference` is that of the part in the shell, `seat_interference` that of the bearing in its cup, with
    `seat_closing` the raceway closure per mm of the latter; both without what roughness takes. A loose fit
    gives no clearance back. Source: general bearing catalogue, section 8.2.2.
    """
    closed_by_part = closure_factor * np.maximum(interference, 0.0)
    closed_by_seat = seat_closing * np.maximum(seat_interference, 0.0)
    return initial - closed_by_part - closed_by_seat - oval_loss


def ring_hoop_stress(outer_ring: Ring, pressure: Amount) -> Amount:
    """Return the hoop stress at the raceway (MPa, compression negative) under a pressure round the ring."""
    return hoop_stress_at_bore(outer_ring, 0.0, pressure)
