"""Go and no-go gauges and what they did."""

from typing import Literal

from pydantic import Field, model_validator

from recommender.bench.quantities import MeasuredLength, MeasuredSize, MeasuredTemperature, Name, OrUnknown
from recommender.reading.model import Model


class Gauge(Model):
    """A plug gauge tried in one bore. A short one proves nothing deeper than its length."""

    kind: Literal["go", "no_go"]
    size: MeasuredSize = Field(description="nominal size")
    measured: OrUnknown[MeasuredSize] = Field(default=None, description="measured size on its certificate")
    length: OrUnknown[MeasuredSize] = Field(default=None, description="length of its gauging part")
    result: Literal["enters_fully", "entered_to", "did_not_enter", "unknown"]
    depth: OrUnknown[MeasuredLength] = Field(default=None, description="how far it went in, with entered_to")
    temperature: OrUnknown[MeasuredTemperature] = Field(
        default=None, description="the gauge's, if not the frame's"
    )
    id: Name | None = None
    note: str = ""

    @model_validator(mode="after")
    def _depth_with_entered_to(self) -> "Gauge":
        if (self.result == "entered_to") != (self.depth is not None):
            raise ValueError(
                "`depth` goes with `entered_to` and with nothing else; "
                "write how far the gauge went in, or leave it out"
            )
        return self
