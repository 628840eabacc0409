"""Quantities and dates as model types."""

from datetime import date
from typing import Any

import pytest
from pydantic import TypeAdapter, ValidationError

from recommender.ground.quantity import UNITS, Quantity
from recommender.reading import types
from recommender.reading.types import KINDS, AnyQuantity, IsoDate, Length, Temperature, any_quantity, iso_date


def test_every_kind_of_unit_has_words_and_an_example_of_its_own_kind() -> None:
    assert {unit.kind for unit in UNITS.values()} == set(KINDS)
    for kind, (_, example) in KINDS.items():
        assert UNITS[types.parse(example).unit].kind == kind


def test_a_length_is_read_in_millimetres() -> None:
    read = TypeAdapter(Length).validate_python
    assert read("46.032 mm") == 46.032
    assert read("12 um") == pytest.approx(0.012)


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ("30 degC", "`30 degC` is a temperature; a length such as `46.032 mm` is wanted"),
        (68.1, "a unit is missing; write `68.1 mm`"),
        (68, "a unit is missing; write `68 mm`"),
        ("68.1", "`68.1` has no unit; write it like `46.032 mm`"),
        ("3 1", "`3 1` is a plain number; a length"),
        (True, "a number with its unit is wanted here"),
        (None, "a number with its unit is wanted here"),
        ([1], "a number with its unit is wanted here"),
        ("wide", "not a number with a unit"),
    ],
)
def test_what_is_no_length(given: Any, says: str) -> None:
    with pytest.raises(ValidationError) as refused:
        TypeAdapter(Length).validate_python(given)
    assert says in str(refused.value)


def test_a_temperature_is_no_temperature_difference() -> None:
    with pytest.raises(ValidationError, match="`2 K` is a temperature difference; a temperature"):
        TypeAdapter(Temperature).validate_python("2 K")


def test_any_quantity_keeps_its_unit() -> None:
    assert TypeAdapter(AnyQuantity).validate_python("12 um") == Quantity(12.0, "um")
    assert any_quantity("3 1") == Quantity(3.0, "1")


def test_dates() -> None:
    assert TypeAdapter(IsoDate).validate_python("2026-05-04") == date(2026, 5, 4)
    assert iso_date(date(2026, 5, 4)) == date(2026, 5, 4)


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ("2026-5-4", "is not a date"),
        ("04.05.2026", "is not a date"),
        ("20260504", "is not a date"),
        ("2026-W19-1", "is not a date"),
        ("2026-05-04T10:00", "is not a date"),
        (20260504, "is not a date"),
        ("2026-02-30", "is not in the calendar"),
        ("0000-01-01", "is not in the calendar"),
    ],
)
def test_what_is_no_date(given: Any, says: str) -> None:
    with pytest.raises(ValueError, match=r".") as refused:
        iso_date(given)
    assert says in str(refused.value)
