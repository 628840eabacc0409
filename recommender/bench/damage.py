"""What was looked at for damage, how, and what was seen."""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field

from recommender.bench.frame import SideName
from recommender.bench.quantities import Degrees, Many, MeasuredLength, Name, OrUnknown
from recommender.reading.model import Model


def _as_list(given: Any) -> Any:
    return [given] if isinstance(given, str) else given


Ways = Annotated[Many[Name], BeforeValidator(_as_list)]


class Sign(Model):
    """A sign of damage that was seen."""

    sign: Name = Field(description="what was seen, a word of the list signs")
    where: Name = Field(description="the place, a word of the list places, or unknown")
    side: OrUnknown[SideName] = None
    length: OrUnknown[MeasuredLength] = None
    depth: OrUnknown[MeasuredLength] = Field(default=None, description="distance from that side's face")
    clock: OrUnknown[Degrees] = Field(
        default=None, description="where around the bore, 0 deg at the down tube"
    )
    photo: Name | None = Field(default=None, description="id of a photograph under identity")
    note: str = ""


class Damage(Model):
    """The damage inspection. A place not named, or named with `unknown`, was not looked at."""

    looked_at: dict[str, Ways] = Field(description="ways of looking by place")
    signs: Many[Sign] = Field(max_length=200, description="every sign seen; [] when none was seen")
    insert_test: Literal["firm", "moved", "unknown"] = Field(
        default="unknown", description="load test of a bonded insert"
    )
    notes: str = ""

    def ways(self, place: str) -> tuple[str, ...]:
        """Return how a place was looked at; empty when it was not, or when nobody knows."""
        return tuple(way for way in self.looked_at.get(place, ()) if way != "unknown")
