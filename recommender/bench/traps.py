"""Unit traps: what a number that cannot be right was probably meant to be.

The windows are physical sense, not limits of a decision: bores, gauges and parts between 30 and 60 mm hold
every press-fit shell in use (37 to 51.4 mm; common practice, no source).
"""

from typing import NamedTuple

Pattern = tuple[str, ...]
MM_PER_INCH = 25.4
SLIPS = (10.0, 0.1, 100.0, 0.01)
COARSEST_MM = 0.5
WARMEST_BENCH = 45.0
FAR_OFF = 0.2
THIMBLE_TURN = 0.5
THIMBLE_DOUBT = 0.05
FARTHEST_IN_ONE_BORE = 1.0
FARTHEST_ON_RING = 0.1


class Window(NamedTuple):
    """What a length in mm can be at all, and what it is the length of."""

    low: float
    high: float
    what: str


class Trap(NamedTuple):
    """What a number looks like, and what to do about it."""

    message: str
    advice: str


BORE = Window(30.0, 60.0, "a bore, gauge, ring or part")
WINDOWS: tuple[tuple[Pattern, Window], ...] = (
    (("frame", "shell_width"), Window(40.0, 160.0, "a shell width")),
    (("frame", "spindle"), Window(15.0, 40.0, "a spindle")),
    (("frame", "wall"), Window(0.2, 20.0, "a wall")),
    (("frame", "insert_wall"), Window(0.05, 20.0, "an insert wall")),
    (("sides", "*", "wall"), Window(0.2, 20.0, "a wall")),
    (("sides", "*", "insert_wall"), Window(0.05, 20.0, "an insert wall")),
    (("sides", "*", "seat_depth"), Window(2.0, 60.0, "a seat depth")),
    (("sides", "*", "gauges", "*", "size"), BORE),
    (("sides", "*", "gauges", "*", "measured"), BORE),
    (("bench", "instruments", "*", "ring", "size"), BORE),
    (("bench", "instruments", "*", "ring", "before"), BORE),
    (("bench", "instruments", "*", "ring", "after"), BORE),
    (("bench", "instruments", "*", "error_limit"), Window(0.0, COARSEST_MM, "an error limit")),
    (("bench", "instruments", "*", "resolution"), Window(0.0, COARSEST_MM, "a resolution")),
    (("history", "cups", "*", "od"), BORE),
    (("parts", "*", "od"), BORE),
    (("parts", "*", "lands", "*", "od"), BORE),
    (("parts", "*", "bearing", "od"), Window(20.0, 60.0, "a bearing")),
    (("parts", "*", "seat"), Window(20.0, 60.0, "a bearing seat")),
)


def length_trap(value: float, window: Window) -> Trap | None:
    """Return what a length in mm outside its window looks like, None when it is inside."""
    if window.low <= value <= window.high:
        return None
    shown = f"{value:.7g}"
    if window.low <= value / 1000 <= window.high:
        meant = f"{value / 1000:.7g} mm"
        return Trap(
            f"{shown} mm reads like micrometres",
            f"{shown} um is {meant}; write that if it is what was measured.",
        )
    if window.low <= value * MM_PER_INCH <= window.high:
        meant = f"{value * MM_PER_INCH:.3f} mm"
        return Trap(
            f"{shown} mm reads like inches",
            f"{shown} in is {meant}; write mm if that is what was measured.",
        )
    for factor in SLIPS:
        if window.low <= value * factor <= window.high:
            return Trap(
                f"{shown} mm reads like a lost digit or a slipped decimal point",
                f"{window.what.capitalize()} is {window.low:g} to {window.high:g} mm; look at the sheet: "
                f"was it {value * factor:.7g} mm, or is a digit missing?",
            )
    return Trap(
        f"{shown} mm cannot be {window.what}",
        f"{window.what.capitalize()} is {window.low:g} to {window.high:g} mm; look at the sheet again.",
    )


def temperature_trap(celsius: float) -> Trap | None:
    """Return what a temperature in degC that no bench has looks like, None when a bench may have it."""
    if 0.0 <= celsius <= WARMEST_BENCH:
        return None
    shown, meant = f"{celsius:.4g}", (celsius - 32) / 1.8
    if 0.0 <= meant <= WARMEST_BENCH:
        return Trap(
            f"{shown} degC reads like Fahrenheit",
            f"{shown} F is {meant:.1f} degC; write that if it is what was measured.",
        )
    return Trap(
        f"{shown} degC is no temperature to measure at",
        f"A bench is between 0 and {WARMEST_BENCH:g} degC; look at the sheet again.",
    )
