"""Measured scalars of a case file: `46.032 mm`, or a mapping that says by what or how closely."""

from typing import Annotated, Any, Self, TypeVar

from pydantic import (
    AfterValidator,
    BeforeValidator,
    Field,
    ModelWrapValidatorHandler,
    Strict,
    ValidationError,
    model_validator,
)

from recommender.reading.model import Model
from recommender.reading.types import (
    Angle,
    Force,
    Length,
    Mass,
    Temperature,
    TemperatureDifference,
    quantity_in,
)

T = TypeVar("T")


def _unless_unknown(given: object) -> object:
    return None if given == "unknown" else given


def _not_negative(value: float) -> float:
    if value < 0:
        raise ValueError("this cannot be negative; write it without a sign")
    return value


def _positive(value: float) -> float:
    if value <= 0:
        raise ValueError("this must be greater than nothing; write what was measured, or `unknown`")
    return value


OrUnknown = Annotated[T | None, BeforeValidator(_unless_unknown)]
Many = Annotated[tuple[T, ...], Strict(False)]
Name = Annotated[str, Field(min_length=1)]

Millimetres = Annotated[Length, AfterValidator(_not_negative)]
Size = Annotated[Length, AfterValidator(_positive)]
Minutes = Annotated[Angle, AfterValidator(_not_negative)]
Degrees = Annotated[float, BeforeValidator(quantity_in("deg", "90 deg")), Field(ge=0, lt=360)]
Celsius = Temperature
Kelvin = Annotated[TemperatureDifference, AfterValidator(_positive)]
Newtons = Annotated[Force, AfterValidator(_not_negative)]
Kilograms = Annotated[Mass, AfterValidator(_positive)]
Kilometres = Annotated[float, BeforeValidator(quantity_in("km")), AfterValidator(_not_negative)]


class Measured(Model):
    """What every measured scalar may say of itself: the instrument used and how often, or a spread."""

    by: Name | None = Field(default=None, description="id of the instrument used")
    repeats: Annotated[int, Field(ge=1)] | None = Field(
        default=None, description="how many readings the value is the mean of"
    )

    @model_validator(mode="wrap")
    @classmethod
    def _from_text(cls, given: Any, handler: ModelWrapValidatorHandler[Self]) -> Self:
        """Read a bare scalar as the value, so that an error belongs to the scalar itself."""
        if isinstance(given, dict | Measured):
            return handler(given)
        try:
            return handler({"value": given})
        except ValidationError as error:
            raise ValueError(error.errors()[0]["msg"].removeprefix("Value error, ")) from None

    @model_validator(mode="after")
    def _one_spread(self) -> "Measured":
        if getattr(self, "within", None) is not None and self.by is not None:
            raise ValueError("`by` and `within` both state the spread; keep one of them")
        if self.repeats is not None and self.by is None:
            raise ValueError("`repeats` stands here without `by`; name the instrument that was read")
        return self


class MeasuredLength(Measured):
    """A length in mm; `within` is its 95 % half-spread in mm, None when not stated."""

    value: Millimetres
    within: Size | None = None


class MeasuredSize(MeasuredLength):
    """A length in mm that must be greater than nothing."""

    value: Size


class MeasuredAngle(Measured):
    """An angle in arcmin; `within` is its 95 % half-spread in arcmin, None when not stated."""

    value: Minutes
    within: Annotated[Minutes, AfterValidator(_positive)] | None = None


class MeasuredTemperature(Measured):
    """A temperature in degC; `within` is its 95 % half-spread in K, None when not stated."""

    value: Celsius
    within: Kelvin | None = None


class MeasuredForce(Measured):
    """A force in N; `within` is its 95 % half-spread in N, None when not stated."""

    value: Newtons
    within: Annotated[Newtons, AfterValidator(_positive)] | None = None
