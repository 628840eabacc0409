"""The bench: its temperature, and the instruments with range, error limit, calibration and setting ring."""

from typing import Annotated

from pydantic import Field

from recommender.bench.quantities import (
    Many,
    MeasuredSize,
    MeasuredTemperature,
    Millimetres,
    Name,
    OrUnknown,
    Size,
)
from recommender.reading.model import Model
from recommender.reading.types import IsoDate


class Ring(Model):
    """The setting ring an instrument was checked on, and what it read there."""

    size: MeasuredSize = Field(description="size on the ring's certificate")
    before: OrUnknown[Size] = Field(
        default=None, description="reading on the ring before the bores were read"
    )
    after: OrUnknown[Size] = Field(default=None, description="reading on the ring after the bores were read")
    temperature: OrUnknown[MeasuredTemperature] = Field(
        default=None, description="the ring's, if not its instrument's"
    )


class Instrument(Model):
    """An instrument that was used. None where its record is missing."""

    id: Name = Field(description="short name that readings refer to")
    kind: Name = Field(description="a word of the list instruments")
    range: OrUnknown[Annotated[Many[Millimetres], Field(min_length=2, max_length=2)]] = Field(
        default=None, description="smallest and largest size it can read"
    )
    error_limit: OrUnknown[Size] = Field(default=None, description="largest error its certificate allows")
    resolution: OrUnknown[Size] = Field(default=None, description="one step of its display or scale")
    calibrated: OrUnknown[IsoDate] = Field(default=None, description="date of the last calibration")
    ring: OrUnknown[Ring] = Field(default=None, description="setting ring it was checked on")
    temperature: OrUnknown[MeasuredTemperature] = Field(
        default=None, description="the instrument's, if not the frame's"
    )
    serial: Name | None = None
    note: str = ""


class Bench(Model):
    """The conditions on the bench and the instruments used."""

    frame_temperature: OrUnknown[MeasuredTemperature] = None
    soaked: Name | None = Field(default=None, description="how long frame and instruments lay together")
    instruments: Many[Instrument] = Field(
        default=(), max_length=30, description="every instrument that readings refer to"
    )

    def instrument(self, wanted: str) -> Instrument | None:
        """Return the instrument with this id, None when the case defines none."""
        return next((each for each in self.instruments if each.id == wanted), None)
