"""Materials, bearings, parts and instruments as written in files."""

from typing import Annotated, Literal

from pydantic import Field, model_validator

from recommender.reading.model import Model
from recommender.reading.types import Angle, AnyQuantity, Length
from recommender.rulebook.models.common import (
    Expansion,
    LengthBand,
    LengthLimits,
    Modulus,
    PlainNumber,
    SizeWithLimits,
    Sourced,
    Text,
    Word,
)
from recommender.rulebook.stock import Feel


def _inside(value: float, low: float, high: float) -> None:
    if not low <= value <= high:
        raise ValueError("the value lies outside its own range; correct `low`, `value` or `high`")


class ModulusRange(Model):
    """A modulus with the range it may lie in."""

    value: Modulus
    low: Modulus
    high: Modulus

    @model_validator(mode="after")
    def _ordered(self) -> "ModulusRange":
        _inside(self.value, self.low, self.high)
        return self


class ExpansionRange(Model):
    """An expansion with the range it may lie in."""

    value: Expansion
    low: Expansion
    high: Expansion

    @model_validator(mode="after")
    def _ordered(self) -> "ExpansionRange":
        _inside(self.value, self.low, self.high)
        return self


class MaterialModel(Model):
    """Stiffness and expansion of a material."""

    title: Text
    kind: Literal["laminate", "metal", "polymer"]
    modulus: ModulusRange
    poisson: Annotated[PlainNumber, Field(gt=0, lt=0.5)]
    expansion: ExpansionRange
    source: Sourced


class BallsModel(Model):
    """The row of balls of a bearing, with the factors of its ratings."""

    count: Annotated[int, Field(gt=0)]
    diameter: Length
    pitch: Length
    bm: PlainNumber = Field(description="factor of the material and make, ISO 281")
    fc: PlainNumber = Field(description="factor of the dynamic rating, ISO 281")
    f0: PlainNumber = Field(description="factor of the static rating, ISO 76")
    source: Sourced


class CompoundModel(Model):
    """A class of retaining compound: the gaps it fills, what it cures on, how long it takes."""

    title: Text
    gap: LengthBand = Field(description="narrowest and widest gap on diameter that it fills")
    surfaces: list[Word] = Field(description="materials and coatings it cures on by itself")
    with_activator: list[Word] = Field(description="materials and coatings it cures on only with its activator")
    cure: AnyQuantity = Field(description="time to full strength at 20 degC, such as `72 h`")
    source: Sourced


class BearingModel(Model):
    """A bearing by designation."""

    title: Text
    bore: Length
    od: Length
    width: Length
    od_band: LengthLimits
    clearance: Annotated[dict[Word, LengthBand], Field(min_length=1)]
    balls: BallsModel | None = Field(default=None, description="its balls, left out where they are not known")
    sold: Annotated[list[Word], Field(min_length=1)]
    source: Sourced

    @model_validator(mode="after")
    def _sold_classes_have_a_clearance(self) -> "BearingModel":
        unknown = [each for each in self.sold if each not in self.clearance]
        if unknown:
            raise ValueError(f"no clearance is given for {', '.join(unknown)}; add it, or take it out of `sold`")
        return self


class PartModel(Model):
    """A generic part; its band is null where none is known."""

    title: Text
    kind: Literal["bearing", "cup"]
    material: Word
    od: SizeWithLimits
    contact_length: Length
    seat: Length | None = None
    seat_interference: LengthBand | None = None
    bearing: Word
    turnable: bool
    standards: list[Word] = Field(default=[], description="in a house file: the shell standards this part belongs to")
    source: Sourced

    @model_validator(mode="after")
    def _cup_has_a_seat(self) -> "PartModel":
        if self.kind == "cup" and self.seat is None:
            raise ValueError("a cup needs the diameter of its bearing seat; add `seat: 42 mm`")
        return self


class InstrumentModel(Model):
    """A kind of instrument."""

    title: Text
    sees: Literal["two_point", "three_point", "points", "diameter_only"]
    usable: LengthBand = Field(description="bores it can read at all")
    reach: Length | None = Field(description="deepest place it gets to, null where nothing holds it back")
    guide: Length | None = Field(description="seat its head needs to stand square, null where it is rocked or swept")
    tilt: Angle = Field(default=0.0, description="how far the head may lean in a seat shorter than `guide`")
    off_centre: Length = Field(default=0.0, description="how far its contacts may stand beside a diameter")
    land: Length = Field(default=0.0, description="width of flat contacts across the bore")
    anvil: Length = Field(default=0.0, description="length of its contacts along the bore")
    feel: Feel = Field(description="how much a reading depends on the hand that takes it")
    error_limit: Length
    finest: Length = Field(description="error limit under which no certificate of this kind is believed")
    repeatability: Length
    resolution: Length
    decides_fit: bool
    source: Sourced


class SpreadModel(Model):
    """Default half-spread of one kind of measured number."""

    within: AnyQuantity
    finest: AnyQuantity | None = Field(default=None, description="spread under which no statement is believed")
    source: Sourced


