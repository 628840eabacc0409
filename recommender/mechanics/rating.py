"""Load ratings and fatigue life of a deep-groove ball bearing, for information.

Sources: ISO 76 (static rating), ISO 281 (dynamic rating and life). The factors that depend on the ratio of ball
to pitch diameter come in as a table.
"""

from collections.abc import Sequence

import numpy as np

from recommender.mechanics.amount import Amount, require_not_negative, require_positive

LARGEST_BALL = 25.4
"""Ball diameter (mm) up to which the dynamic rating grows with its power 1.8."""


def factor_at(ratio: float, ratios: Sequence[float], factors: Sequence[float]) -> float:
    """Return a tabled factor at a ratio of ball to pitch diameter, linear between rows.

    Raises ValueError for a table whose ratios do not rise or that does not reach the ratio.
    """
    if len(ratios) != len(factors) or not ratios or any(np.diff(ratios) <= 0):
        raise ValueError("a table of factors needs one rising ratio each")
    if not ratios[0] <= ratio <= ratios[-1]:
        raise ValueError(f"the table has no factor for the ratio {ratio:g}")
    return float(np.interp(ratio, ratios, factors))


def static_rating(f0: Amount, balls: int, ball_diameter: Amount) -> Amount:
    """Return the basic static radial rating (N) of one row of balls (mm). Source: ISO 76."""
    require_positive(f0=f0, balls=balls, ball_diameter=ball_diameter)
    return f0 * balls * ball_diameter**2


def dynamic_rating(bm: Amount, fc: Amount, balls: int, ball_diameter: Amount) -> Amount:
    """Return the basic dynamic radial rating (N) of one row of balls (mm). Source: ISO 281.

    Raises ValueError for a ball larger than 25.4 mm, where the formula changes.
    """
    require_positive(bm=bm, fc=fc, balls=balls, ball_diameter=ball_diameter)
    if np.any(np.asarray(ball_diameter) > LARGEST_BALL):
        raise ValueError(f"the rating of balls above {LARGEST_BALL} mm follows another power")
    row: float = balls ** (2 / 3)
    return bm * fc * row * ball_diameter**1.8


def equivalent_load(radial: Amount, axial: Amount, x: Amount, y: Amount) -> Amount:
    """Return the radial load (N) of the same fatigue life; never less than the radial load. Source: ISO 281."""
    require_not_negative(radial=radial, axial=axial)
    return np.maximum(radial, x * radial + y * axial)


def life_revolutions(rating: Amount, load: Amount) -> Amount:
    """Return the revolutions that 90 % of such bearings reach. Source: ISO 281, ball bearings."""
    require_positive(rating=rating, load=load)
    return (rating / load) ** 3 * 1e6


def life_hours(rating: Amount, load: Amount, speed: Amount) -> Amount:
    """Return the hours that 90 % of such bearings reach at a speed in revolutions per minute."""
    require_positive(speed=speed)
    return life_revolutions(rating, load) / (60 * speed)


def static_safety(rating: Amount, load: Amount) -> Amount:
    """Return the static rating over the greatest load; below 1 the balls dent the raceways. Source: ISO 76."""
    require_positive(load=load)
    return rating / load
