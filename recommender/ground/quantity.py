"""Numbers with a unit out of a closed set, read from and written as one scalar such as `46.032 mm`."""

import re
from typing import NamedTuple


class Unit(NamedTuple):
    """A unit of the closed set: its spelling and what it measures.

    `size` is in the kind's first unit, `decimals` is how many are usually shown.
    """

    symbol: str
    kind: str
    size: float
    decimals: int


UNITS: dict[str, Unit] = {
    unit.symbol: unit
    for unit in (
        Unit("mm", "length", 1.0, 3),
        Unit("um", "length", 1e-3, 1),
        Unit("degC", "temperature", 1.0, 1),
        Unit("K", "temperature_difference", 1.0, 1),
        Unit("deg", "angle", 1.0, 1),
        Unit("arcmin", "angle", 1.0 / 60.0, 1),
        Unit("um/mm", "taper", 1.0, 2),
        Unit("MPa", "stress", 1.0, 1),
        Unit("GPa", "stress", 1e3, 1),
        Unit("N", "force", 1.0, 0),
        Unit("kN", "force", 1e3, 2),
        Unit("Nm", "moment", 1.0, 1),
        Unit("um/m", "strain", 1.0, 0),
        Unit("ppm/K", "expansion", 1.0, 1),
        Unit("kg", "mass", 1.0, 1),
        Unit("h", "time", 1.0, 0),
        Unit("days", "duration", 1.0, 0),
        Unit("months", "age", 1.0, 0),
        Unit("km", "distance", 1.0, 0),
        Unit("%", "share", 0.01, 1),
        Unit("1", "number", 1.0, 2),
    )
}

QUANTITY = re.compile(r"([+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?)\s*(\S.*)?")
DECIMAL_COMMA = re.compile(r"[+-]?[0-9]+,[0-9]+")
OTHER_SPELLINGS = {
    **dict.fromkeys(("\u00b5m", "\u03bcm", "micron", "microns", "micrometre", "micrometres"), "um"),
    **dict.fromkeys(("\u00b0C", "\u2103", "C", "celsius"), "degC"),
    **dict.fromkeys(("\u00b0", "degree", "degrees"), "deg"),
    **dict.fromkeys(("MM", "Mm", "millimetre", "millimetres"), "mm"),
}
SMALLEST, LARGEST = 1e-9, 1e9
LONGEST = 60
LEAST, SMALL = 1e-4, 0.01
MM_PER_INCH = 25.4


class Quantity(NamedTuple):
    """A number with its unit, as written."""

    value: float
    unit: str

    def to(self, unit: str) -> float:
        """Return the value in another unit of the same kind; raises ValueError when the kinds differ."""
        return convert(self.value, self.unit, unit)

    def __str__(self) -> str:
        """Return the quantity as one scalar, `46.032 mm`."""
        return show(self.value, self.unit)


def convert(value: float, unit: str, wanted: str) -> float:
    """Return `value` given in `unit` expressed in `wanted`.

    Raises ValueError when the two units measure different things.
    """
    have, want = UNITS[unit], UNITS[wanted]
    if have.kind != want.kind:
        raise ValueError(f"{unit} measures {have.kind}, {wanted} measures {want.kind}")
    return value if unit == wanted else value * have.size / want.size


def same_kind(unit: str, other: str) -> bool:
    """Return whether two units of the set measure the same kind of thing."""
    return UNITS[unit].kind == UNITS[other].kind


def parse(text: str) -> Quantity:
    """Return the quantity written in `text`; raises ValueError saying what is wrong with it.

    A bare number has unit `1`. Inches and decimal commas are refused in words, as is anything outside +-1e9
    or nearer to nothing than 1e-9 without being nothing.
    """
    if len(text) > LONGEST:
        raise ValueError(f"`{text[:LONGEST]}...` is too long for a number with a unit; write it like `46.032 mm`")
    if DECIMAL_COMMA.match(text.strip()):
        raise ValueError(f"`{text}` has a decimal comma; write {text.strip().replace(',', '.', 1)}")
    match = QUANTITY.fullmatch(text.strip())
    if match is None:
        raise ValueError(f"`{text}` is not a number with a unit; write it like `46.032 mm`")
    value, unit = float(match[1]), (match[2] or "1").strip()
    if unit not in UNITS:
        raise ValueError(_unknown_unit(value, unit))
    if abs(value) > LARGEST:
        raise ValueError(f"`{text}` is larger than anything measured here")
    if 0 < abs(value) < SMALLEST:
        raise ValueError(f"`{text}` is smaller than anything measured here; write 0 if nothing was found")
    return Quantity(value, unit)


def show(value: float, unit: str) -> str:
    """Return `value` with the decimals usual for its unit, and the unit: `46.032 mm`, `12.4 um`."""
    if unit == "1" and LEAST <= abs(value) < SMALL:
        return f"{value:.2g}"
    if unit == "1":
        return _without_minus_zero(f"{value:.2f}".rstrip("0").rstrip("."))
    return f"{_without_minus_zero(f'{value:.{UNITS[unit].decimals}f}')} {unit}"


def _without_minus_zero(text: str) -> str:
    return text.removeprefix("-") if float(text) == 0 else text


def _unknown_unit(value: float, unit: str) -> str:
    if unit in {"in", "inch", "inches", '"', "''"}:
        metric = f"{value * MM_PER_INCH:.3f} mm"
        return f"inches are not read here; {value} in is {metric}, write that if it is what was measured"
    if unit in OTHER_SPELLINGS:
        return f"the unit `{unit}` is spelt otherwise here; write `{value} {OTHER_SPELLINGS[unit]}`"
    return f"unknown unit `{unit}`; known units: {', '.join(name for name in UNITS if name != '1')}"
