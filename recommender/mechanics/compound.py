"""The gap a retaining compound has to fill. Diametral, mm; negative where the part is tight."""

from typing import NamedTuple

from recommender.mechanics.amount import Amount


class Gap(NamedTuple):
    """Gap between part and bore (mm): at the mean, at the narrowest and at the widest place."""

    mean: Amount
    narrowest: Amount
    widest: Amount


def gap(bore: Amount, od: Amount) -> Amount:
    """Return bore diameter minus outside diameter (mm)."""
    return bore - od


def gap_over_form(od: Amount, mean: Amount, inscribed: Amount, widest: Amount) -> Gap:
    """Return the gap of a part at the mean, the inscribed and the widest diameter of its bore (mm)."""
    return Gap(gap(mean, od), gap(inscribed, od), gap(widest, od))
