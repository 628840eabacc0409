"""Whose frame it is and what shows it: serial, engineer, photographs."""

from typing import Annotated

from pydantic import Field

from recommender.bench.quantities import Name, OrUnknown
from recommender.reading.model import Model


class Photo(Model):
    """A photograph kept beside the case file."""

    file: Name = Field(description="file name of the photograph")
    caption: str = Field(default="", description="what it shows")


class Identity(Model):
    """What tells this frame from any other; None where it was not written down."""

    serial: OrUnknown[Name] = Field(default=None, description="serial number as stamped on the frame")
    model_year: OrUnknown[Annotated[int, Field(ge=1900, le=2200)]] = None
    engineer: OrUnknown[Name] = Field(default=None, description="who measured")
    owner: OrUnknown[Name] = Field(default=None, description="how the workshop refers to the owner")
    shop: OrUnknown[Name] = Field(
        default=None, description="the shop that sent the frame or will press the parts"
    )
    photos: dict[str, Photo] = Field(
        default_factory=dict, max_length=200, description="photographs by their id"
    )
    notes: str = ""
