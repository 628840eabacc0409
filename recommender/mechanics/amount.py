"""The one kind of number mechanics works with, and the two things asked of it."""

import numpy as np
from numpy.typing import NDArray

Amount = float | NDArray[np.float64]
OUTSIDE = (0.025, 0.975)


def middle(amount: Amount) -> float:
    """Return an amount, of draws their median."""
    if isinstance(amount, float):
        return amount
    half = len(amount) // 2
    found = np.partition(amount, half)
    return float(found[half] if len(amount) % 2 else (found[:half].max() + found[half]) / 2)


def ends(draws: NDArray[np.float64]) -> tuple[float, float]:
    """Return between which two amounts 95 % of draws that all count alike lie, by straight lines between draws."""
    places = [share * (len(draws) - 1) for share in OUTSIDE]
    below = [int(place) for place in places]
    found = np.partition(draws, sorted({*below, *(min(place + 1, len(draws) - 1) for place in below)}))
    low, high = (_between(found, at, place - at) for at, place in zip(below, places, strict=True))
    return low, high


def _between(rising: NDArray[np.float64], at: int, part: float) -> float:
    if part == 0:
        return float(rising[at])
    low, high = float(rising[at]), float(rising[at + 1])
    return low + (high - low) * part if part < 1 / 2 else high - (high - low) * (1 - part)


def require_positive(**amounts: Amount) -> None:
    """Raise ValueError, naming the first amount that is not positive (or not a number) in some draw."""
    for name, amount in amounts.items():
        if not _least(amount) > 0:
            raise ValueError(f"{name} must be positive")


def require_not_negative(**amounts: Amount) -> None:
    """Raise ValueError, naming the first amount that is negative (or not a number) in some draw."""
    for name, amount in amounts.items():
        if not _least(amount) >= 0:
            raise ValueError(f"{name} must not be negative")


def _least(amount: Amount) -> float:
    return float(amount.min()) if isinstance(amount, np.ndarray) else amount
