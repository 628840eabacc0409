"""Scalar types for models: quantities with a unit, and dates."""

import re
from collections.abc import Callable
from datetime import date
from typing import Annotated

from pydantic import BeforeValidator

from recommender.ground.quantity import UNITS, Quantity, parse

ISO_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
KINDS = {
    "length": ("a length", "46.032 mm"),
    "temperature": ("a temperature", "20.4 degC"),
    "temperature_difference": ("a temperature difference", "2 K"),
    "angle": ("an angle", "3 arcmin"),
    "taper": ("a taper", "2 um/mm"),
    "stress": ("a stress", "120 MPa"),
    "force": ("a force", "2500 N"),
    "moment": ("a moment", "40 Nm"),
    "strain": ("a strain", "3000 um/m"),
    "expansion": ("an expansion", "23 ppm/K"),
    "mass": ("a mass", "82 kg"),
    "time": ("a time", "24 h"),
    "duration": ("a duration", "365 days"),
    "age": ("an age", "26 months"),
    "distance": ("a distance", "1200 km"),
    "share": ("a share", "25 %"),
    "number": ("a plain number", "3"),
}


def quantity_in(unit: str, example: str = "") -> Callable[[object], float]:
    """Return a reader of texts such as `46.032 mm` that gives the value in `unit`.

    It raises ValueError for anything that is not a text, has no unit, or has a unit of another kind.
    """
    wanted, usual = KINDS[UNITS[unit].kind]
    like = example or usual

    def read(given: object) -> float:
        quantity = any_quantity(given, like)
        if UNITS[quantity.unit].kind != UNITS[unit].kind:
            found = KINDS[UNITS[quantity.unit].kind][0]
            raise ValueError(f"`{given}` is {found}; {wanted} such as `{like}` is wanted")
        return quantity.to(unit)

    return read


def any_quantity(given: object, example: str = "46.032 mm") -> Quantity:
    """Return the quantity in a text; raises ValueError when a unit is missing or it is no text."""
    if isinstance(given, bool) or not isinstance(given, int | float | str):
        raise ValueError(f"a number with its unit is wanted here; write it like `{example}`")
    if not isinstance(given, str):
        unit = example.partition(" ")[2]
        raise ValueError(f"a unit is missing; write `{f'{given} {unit}'.strip()}` if that is what was measured")
    quantity = parse(given)
    if quantity.unit == "1" and not given.rstrip().endswith(" 1"):
        raise ValueError(f"`{given}` has no unit; write it like `{example}`")
    return quantity


def iso_date(given: object) -> date:
    """Return the date written as `2026-05-04`; raises ValueError for any other spelling or no such day."""
    if type(given) is date:
        return given
    if not isinstance(given, str) or not ISO_DATE.fullmatch(given):
        raise ValueError(f"`{given}` is not a date; write year-month-day such as `2026-05-04`")
    try:
        return date.fromisoformat(given)
    except ValueError:
        raise ValueError(f"`{given}` is not in the calendar; write year-month-day such as `2026-05-04`") from None


IsoDate = Annotated[date, BeforeValidator(iso_date)]
AnyQuantity = Annotated[Quantity, BeforeValidator(any_quantity)]
Length = Annotated[float, BeforeValidator(quantity_in("mm"))]
Temperature = Annotated[float, BeforeValidator(quantity_in("degC"))]
TemperatureDifference = Annotated[float, BeforeValidator(quantity_in("K"))]
Angle = Annotated[float, BeforeValidator(quantity_in("arcmin"))]
Force = Annotated[float, BeforeValidator(quantity_in("N"))]
Stress = Annotated[float, BeforeValidator(quantity_in("MPa"))]
Mass = Annotated[float, BeforeValidator(quantity_in("kg"))]
Share = Annotated[float, BeforeValidator(quantity_in("%"))]
