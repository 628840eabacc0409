"""Measured parts in hand."""

from typing import Literal

from pydantic import Field

from recommender.bench.frame import SideName
from recommender.bench.quantities import (
    Many,
    MeasuredLength,
    MeasuredSize,
    MeasuredTemperature,
    Name,
    OrUnknown,
)
from recommender.reading.model import Model


class FittedBearing(Model):
    """The bearing that sits in a cup."""

    part: Name = Field(default="unknown", description="designation, a word of the list parts")
    od: OrUnknown[MeasuredSize] = None
    clearance_class: Name = Field(default="unknown", description="a word of the list clearance_classes")


class Land(Model):
    """One land of a part with more than one diameter, counted from its flange."""

    start: MeasuredLength = Field(description="distance of the land's outer edge from the flange")
    length: MeasuredSize
    od: MeasuredSize


class Part(Model):
    """A part in hand, for one side or, with side None, for either."""

    part: Name = Field(description="what it is, a word of the list parts")
    id: Name | None = Field(default=None, description="mark that tells it from its like")
    side: OrUnknown[SideName] = Field(
        default=None, description="the side it is meant for; left out when either will do"
    )
    od: OrUnknown[MeasuredSize] = Field(default=None, description="outside diameter, mean of three places")
    od_spread: OrUnknown[MeasuredLength] = Field(
        default=None, description="largest minus smallest outside diameter"
    )
    bearing_fitted: Literal["fitted", "not_fitted", "unknown"] = Field(
        default="unknown", description="whether its bearing was in the cup when it was measured"
    )
    material: Name | None = Field(
        default=None, description="a word of the list part_materials, where it differs from the list"
    )
    coating: Name | None = Field(default=None, description="a word of the list coatings")
    length: OrUnknown[MeasuredSize] = Field(
        default=None, description="length of the land that sits in the bore"
    )
    lands: Many[Land] = Field(default=(), max_length=20, description="lands of a stepped part")
    seat: OrUnknown[MeasuredSize] = Field(
        default=None, description="diameter of the bearing seat inside the cup, bearing out"
    )
    bearing: FittedBearing | None = Field(default=None, description="the bearing fitted in it")
    clearance_class: Name = Field(default="unknown", description="class of the bearing's clearance")
    temperature: OrUnknown[MeasuredTemperature] = Field(
        default=None, description="when it was measured, if not the frame's"
    )
    note: str = ""
