"""Numbers as the bench writes them: values with interval, bands, tolerances, margins, forces."""

from recommender.deciding.answer import Band, CheckShown, Found
from recommender.ground.quantity import show


def with_interval(found: Found) -> str:
    """Return a fact with its unit once: `45.972 mm (45.968 to 45.975)`; words and unknowns as they are shown."""
    if found.value is None or found.low is None or found.high is None or found.unit is None:
        return found.shown
    if found.low == found.high:
        return show(found.value, found.unit)
    low, high = (show(each, found.unit).removesuffix(found.unit).rstrip() for each in (found.low, found.high))
    return f"{show(found.value, found.unit)} ({low} to {high})"


def turned(band: Band) -> str:
    """Return a band of diameters as middle and tolerance: `46.051 +-0.005 mm`."""
    middle, half = (band[0] + band[1]) / 2, (band[1] - band[0]) / 2
    return f"{middle:.3f} mm" if half < 5e-5 else f"{middle:.3f} +-{_decimals(half)} mm"


def between(band: Band, unit: str = "mm") -> str:
    """Return a band by its ends: `46.041 to 46.061 mm`."""
    low, high = (show(each, unit) for each in band)
    return low if low == high else f"{low.removesuffix(unit).rstrip()} to {high}"


def size(value: float) -> str:
    """Return a catalogue size without the zeros nobody writes: `42`, `41.5`."""
    return f"{value:.3f}".rstrip("0").rstrip(".")


def margin(check: CheckShown) -> str:
    """Return how far a number lies from its limit, in its unit and in spreads: `42.0 um, 6.0 times its spread`."""
    if check.margin is None or check.unit is None:
        return ""
    distance = show(abs(check.margin), check.unit)
    return distance if check.spreads is None else f"{distance}, {times(abs(check.spreads))} its spread"


def times(count: float) -> str:
    """Return a factor in words: `6.2 times`, `under a tenth of`."""
    if count < 0.1:
        return "under a tenth of"
    return f"{count:.0f} times" if count >= 10 else f"{count:.1f} times"


def _decimals(half: float) -> str:
    return f"{half:.3f}" if abs(half - round(half, 3)) < 5e-5 else f"{half:.4f}"
