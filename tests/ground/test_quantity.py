"""Numbers with units."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as some

from recommender.ground.quantity import UNITS, Quantity, convert, parse, same_kind, show


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("46.032 mm", 46.032, "mm"),
        ("12um", 12.0, "um"),
        ("-0.5 degC", -0.5, "degC"),
        ("1e-3 mm", 0.001, "mm"),
        (".5 mm", 0.5, "mm"),
        ("7", 7.0, "1"),
        ("25 %", 25.0, "%"),
        ("2 um/mm", 2.0, "um/mm"),
    ],
)
def test_what_is_read(text: str, value: float, unit: str) -> None:
    assert parse(text) == Quantity(value, unit)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("0,03 mm", "decimal comma; write 0.03 mm"),
        ("1.811 in", "1.811 in is 45.999 mm"),
        ('1.811"', "inches are not read here"),
        ("12 furlong", "unknown unit `furlong`"),
        ("12 \u00b5m", "write `12.0 um`"),
        ("20 \u00b0C", "write `20.0 degC`"),
        ("mm", "not a number with a unit"),
        ("", "not a number with a unit"),
        ("nan mm", "not a number with a unit"),
        ("1e10 mm", "larger than anything"),
        ("1e999 mm", "larger than anything"),
        ("1e-10 mm", "smaller than anything"),
        ("-5e-324 um", "smaller than anything"),
        ("\uff14\uff16 mm", "not a number with a unit"),
        ("9" * 100 + " mm", "too long"),
        ("46.032 mm mm", "unknown unit"),
    ],
)
def test_what_is_refused(text: str, says: str) -> None:
    with pytest.raises(ValueError, match=r".") as refused:
        parse(text)
    assert says in str(refused.value)


def test_conversion_inside_a_kind() -> None:
    assert convert(12.0, "um", "mm") == pytest.approx(0.012, rel=1e-15)
    assert convert(1.0, "deg", "arcmin") == pytest.approx(60.0)
    assert Quantity(2.0, "GPa").to("MPa") == 2000.0


def test_no_conversion_between_kinds() -> None:
    with pytest.raises(ValueError, match="degC measures temperature, K measures temperature_difference"):
        convert(20.0, "degC", "K")
    assert not same_kind("degC", "K")
    assert same_kind("N", "kN")


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (46.0321, "mm", "46.032 mm"),
        (-0.0001, "mm", "0.000 mm"),
        (-0.00001, "1", "0"),
        (0.001, "1", "0.001"),
        (3.0, "1", "3"),
        (100.0, "1", "100"),
        (0.25, "1", "0.25"),
        (2500.4, "N", "2500 N"),
    ],
)
def test_how_it_is_shown(value: float, unit: str, text: str) -> None:
    assert show(value, unit) == text


@given(some.floats(-1e6, 1e6), some.sampled_from(sorted(UNITS)))
def test_what_is_shown_can_be_read_again(value: float, unit: str) -> None:
    again = parse(show(value, unit))
    decimals = UNITS[unit].decimals
    assert again.unit == unit
    assert math.isclose(again.value, value, abs_tol=0.5001 * 10**-decimals)
