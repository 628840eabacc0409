"""The closed table of unquoted scalars."""

import pytest

from recommender.reading.scalars import RefusedScalar, Scalar, plain_value


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("0", 0),
        ("-0", 0),
        ("42", 42),
        ("+7", 7),
        ("-12", -12),
        ("1e-3", 0.001),
        ("1.0e3", 1000.0),
        ("-.5", -0.5),
        (".5", 0.5),
        ("5.", 5.0),
        ("0.03", 0.03),
        ("46.000", 46.0),
        ("true", True),
        ("false", False),
        ("null", None),
        ("2026-11-25", "2026-11-25"),
        ("2026-11-25T10:00:00", "2026-11-25T10:00:00"),
        ("46.032 mm", "46.032 mm"),
        ("L-4471", "L-4471"),
        ("L_4471", "L_4471"),
        ("1.2.3", "1.2.3"),
        ("e5", "e5"),
        (".", "."),
        ("-", "-"),
        ("yes_cleaned", "yes_cleaned"),
        ("none", "none"),
        ("at 30:15 h", "at 30:15 h"),
    ],
)
def test_what_is_read(text: str, value: Scalar) -> None:
    found = plain_value(text)
    assert found == value
    assert type(found) is type(value)


@pytest.mark.parametrize(
    ("text", "message", "advice"),
    [
        ("no", "`no` is read as false", "Write `false`"),
        ("NO", "`NO` is read as false", "Write `false`"),
        ("Yes", "`Yes` is read as true", "Write `true`"),
        ("on", "`on` is read as true", "Write `true`"),
        ("Off", "`Off` is read as false", "Write `false`"),
        ("y", "`y` is read as true", "Write `true`"),
        ("N", "`N` is read as false", "Write `false`"),
        ("True", "`True` is read as true", "Write `true`"),
        ("FALSE", "`FALSE` is read as false", "Write `false`"),
        ("Null", "`Null` is read as null", "Write `null`"),
        ("~", "`~` is read as null", "Write `null`"),
        ("30:15", "base 60", "Write a plain number"),
        ("1:30.5", "base 60", "Write a plain number"),
        ("-190:20:30", "base 60", "Write a plain number"),
        ("010", "octal", "Write 10,"),
        ("-07", "octal", "Write -7,"),
        ("00", "octal", "Write 0,"),
        ("03.5", "octal", "Write 3.5,"),
        ("0o10", "octal, hexadecimal or binary", "Write it as a decimal number"),
        ("0x1F", "octal, hexadecimal or binary", "Write it as a decimal number"),
        ("0b101", "octal, hexadecimal or binary", "Write it as a decimal number"),
        (".nan", "not a number that can be measured", "Write a number"),
        ("-.inf", "not a number that can be measured", "Write a number"),
        (".NaN", "not a number that can be measured", "Write a number"),
        ("0,03", "decimal comma", "Write 0.03;"),
        ("-1,5", "decimal comma", "Write -1.5;"),
        ("1_000", "underscores", "Write the digits without underscores"),
        ("1.5_0", "underscores", "Write the digits without underscores"),
        ("1e999", "longer or larger", "Shorten it"),
        ("9" * 5000, "longer or larger", "Shorten it"),
    ],
)
def test_what_is_refused(text: str, message: str, advice: str) -> None:
    with pytest.raises(RefusedScalar) as refused:
        plain_value(text)
    assert message in refused.value.refusal.message
    assert refused.value.refusal.advice.startswith(advice)
    assert "quotes" in refused.value.refusal.advice
