"""Types shared by the models of the rule files."""

import re
from collections.abc import Callable
from typing import Annotated, Any, TypeVar

from pydantic import AfterValidator, BeforeValidator, Field, model_validator

from recommender.ground.quantity import UNITS, parse
from recommender.reading.model import Model
from recommender.reading.types import Length, quantity_in
from recommender.rulebook.stock import SourceKind

M = TypeVar("M", bound=Model)
ID = re.compile(r"[a-z0-9]+(?:[._-][a-z0-9]+)*")
WORD = re.compile(r"[A-Za-z0-9]+(?:[_-][A-Za-z0-9]+)*")


def _shaped(pattern: re.Pattern[str], what: str, example: str) -> Callable[[str], str]:
    def check(text: str) -> str:
        if not pattern.fullmatch(text):
            raise ValueError(f"`{text}` is not {what}; write it like `{example}`")
        return text

    return check


def plain_number(given: object) -> float:
    """Return a number without a unit, also one in quotes; raises ValueError for anything else."""
    if isinstance(given, str):
        quantity = parse(given)
        if quantity.unit != "1":
            raise ValueError(f"a number without a unit is wanted here, not `{given}`; write only the number")
        return quantity.value
    if isinstance(given, bool) or not isinstance(given, int | float):
        raise ValueError("a number without a unit is wanted here; write only the number")
    return float(given)


def known_unit(text: str) -> str:
    """Return the unit; raises ValueError when it is not in the closed set."""
    if text not in UNITS:
        raise ValueError(f"`{text}` is not a unit known here; known are {', '.join(UNITS)}")
    return text


def listed(given: Any) -> Any:
    """Return a single text as a list of one, everything else as it is."""
    return [given] if isinstance(given, str) else given


Id = Annotated[str, AfterValidator(_shaped(ID, "an id", "too-loose.polymer_cup"))]
Word = Annotated[str, AfterValidator(_shaped(WORD, "a word", "three_point_micrometer"))]
Text = Annotated[str, Field(min_length=1)]
PlainNumber = Annotated[float, BeforeValidator(plain_number)]
UnitName = Annotated[str, AfterValidator(known_unit)]
OneOrMore = Annotated[list[Id], BeforeValidator(listed)]
Modulus = Annotated[float, BeforeValidator(quantity_in("MPa", "69 GPa"))]
Expansion = Annotated[float, BeforeValidator(quantity_in("ppm/K"))]


class SourceModel(Model):
    """Where something comes from."""

    kind: SourceKind = Field(description="published, reported, common_practice, memory or shop")
    text: str = Field(default="", description="where it was seen, or why it was chosen")
    title: str = ""
    edition: str = ""
    page: str = ""

    @model_validator(mode="after")
    def _named(self) -> "SourceModel":
        if self.kind in ("published", "reported") and not (self.text or self.title):
            raise ValueError(f"a {self.kind} source is not named; add `text: ...` that says where it was seen")
        return self


SOURCE = 'where it comes from: {kind: shop, text: "own returns"}, or published, reported, common_practice, memory'
Sourced = Annotated[SourceModel, Field(description=SOURCE)]


class LengthBand(Model):
    """Two lengths, the lower first."""

    low: Length = Field(description="lower end, with its unit")
    high: Length = Field(description="upper end, with its unit")

    @model_validator(mode="after")
    def _ordered(self) -> "LengthBand":
        return in_order(self, "low", "high")


class LengthLimits(Model):
    """Lower and upper limit of a diameter."""

    lower: Length = Field(description="lower limit, with its unit")
    upper: Length = Field(description="upper limit, with its unit")

    @model_validator(mode="after")
    def _ordered(self) -> "LengthLimits":
        return in_order(self, "lower", "upper")


class SizeWithLimits(Model):
    """A nominal size with its limits, null where none is known."""

    nominal: Length = Field(description="nominal size, with its unit")
    lower: Length | None = Field(description="lower limit, or null where none is known")
    upper: Length | None = Field(description="upper limit, or null where none is known")

    @model_validator(mode="after")
    def _ordered(self) -> "SizeWithLimits":
        return in_order(self, "lower", "upper")


def in_order(model: M, low: str, high: str) -> M:
    """Return the model; raises ValueError when its number `low` is above its number `high`."""
    first, second = getattr(model, low), getattr(model, high)
    if first is not None and second is not None and first > second:
        raise ValueError(f"`{low}` is above `{high}`; exchange the two")
    return model

