"""Interference of part and bore, over form and temperature. Diametral, mm, tight is positive."""

from collections.abc import Sequence
from typing import NamedTuple

from recommender.mechanics.amount import Amount
from recommender.mechanics.rings import AnyRing, Plane, pressures_per_mm, stack_pressures


class OverForm(NamedTuple):
    """Interference over the form of the bore (mm): at its mean, its inscribed and its widest diameter."""

    mean: Amount
    tightest: Amount
    loosest: Amount


def interference(od: Amount, bore: Amount) -> Amount:
    """Return outside diameter minus bore diameter (mm)."""
    return od - bore


def over_form(od: Amount, mean: Amount, inscribed: Amount, widest: Amount) -> OverForm:
    """Return a part's interference at the mean, the inscribed and the widest diameter of its bore (mm)."""
    return OverForm(interference(od, mean), interference(od, inscribed), interference(od, widest))


def thermal_change(od: Amount, alpha_in: Amount, alpha_out: Amount, temperature_change: Amount) -> Amount:
    """Return by how much the interference grows (mm) when one material sits in one other and both warm up.

    True only for an inner part of one material; with a bearing inside a cup use `thermal_change_of_stack`.
    """
    return (alpha_in - alpha_out) * od * temperature_change


def thermal_change_of_stack(
    rings: Sequence[AnyRing],
    temperature_change: Amount,
    plane: Plane = "stress",
    outermost_stiffening: Amount = 1.0,
) -> Amount:
    """Return the change of interference at the outermost interface (mm) that changes its pressure as much.

    Holds while every interface of the stack stays in contact. Source: thick-cylinder equations with thermal
    strain.
    """
    unstrained: list[Amount] = [0.0] * (len(rings) - 1)
    warmed = stack_pressures(rings, unstrained, temperature_change, plane, outermost_stiffening)[-1]
    return warmed / pressures_per_mm(rings, plane, outermost_stiffening)[-1]
