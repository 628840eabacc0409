"""The one kind of number mechanics works with, and the two things asked of it."""

import numpy as np
from numpy.typing import NDArray

Amount = float | NDArray[np.float64]


def middle(amount: Amount) -> float:
    """Return an amount, of draws their median."""
    if isinstance(amount, float):
        return amount
    half = len(amount) // 2
    found = np.partition(amount, half)
    return float(found[half] if len(amount) % 2 else (found[:half].max() + found[half]) / 2)


def require_positive(**amounts: Amount) -> None:
    """Raise ValueError, naming the first amount that is not positive (or not a number) in some draw."""
    for name, amount in amounts.items():
        if not (amount > 0 if isinstance(amount, float) else np.min(amount) > 0):
            raise ValueError(f"{name} must be positive")


def require_not_negative(**amounts: Amount) -> None:
    """Raise ValueError, naming the first amount that is negative (or not a number) in some draw."""
    for name, amount in amounts.items():
        if not (amount >= 0 if isinstance(amount, float) else np.min(amount) >= 0):
            raise ValueError(f"{name} must not be negative")
