"""Shell standards and fit classes as written in files."""

from typing import Annotated, Literal

from pydantic import Field

from recommender.reading.model import Model
from recommender.reading.types import Length
from recommender.rulebook.models.common import Id, SizeWithLimits, Sourced, Text, Word


class StandardModel(Model):
    """One shell standard."""

    title: Text
    kind: Literal["press_cup", "direct_bearing", "threaded"]
    bore: SizeWithLimits
    widths: Annotated[list[Length], Field(min_length=1)]
    parts: list[Id]
    stop: str = Field(default="", description="the axial stop, in words")
    stops: list[Word] = Field(default=[], description="axial stops it may have; left out where any is possible")
    materials: list[Word] = Field(default=[], description="shell materials it is made in; left out where any is")
    asymmetric: bool = Field(default=False, description="whether the non-drive seat stands further out")
    spindles: list[Length] = Field(default=[], description="spindle diameters that run in it")
    confused_with: list[Word] = Field(default=[], description="standards it is mistaken for")
    notes: str = ""
    source: Sourced


class ClassLimits(Model):
    """Limits of an interference window: outside the bars nothing is pressed, outside the aim it is named."""

    bar_low: Id
    aim_low: Id
    aim_high: Id
    bar_high: Id


class FitClassModel(Model):
    """Pairs of part and bore that share one interference window."""

    title: Text
    part_kinds: Annotated[list[Literal["bearing", "cup"]], Field(min_length=1)]
    part_materials: Annotated[list[Word], Field(min_length=1)]
    bore_materials: Annotated[list[Word], Field(min_length=1)]
    limits: ClassLimits
