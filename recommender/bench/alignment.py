"""Whether the two bores lie on one line, as far as it was measured."""

from pydantic import Field

from recommender.bench.quantities import MeasuredAngle, MeasuredLength, Name, OrUnknown
from recommender.reading.model import Model


class Alignment(Model):
    """Offset of the two seat axes in mm and the angle between them in arcmin; None where not measured."""

    offset: OrUnknown[MeasuredLength] = Field(
        default=None, description="sideways distance of the two seat axes"
    )
    angle: OrUnknown[MeasuredAngle] = Field(default=None, description="angle between the two seat axes")
    method: Name = Field(description="how it was measured, a word of the list alignment_methods")
    note: str = ""
