"""What the owner and earlier shops told: symptoms, earlier cups, crash, warranty, consent."""

from typing import Annotated

from pydantic import Field

from recommender.bench.frame import SideName
from recommender.bench.quantities import Kilograms, Kilometres, Many, MeasuredSize, Name, OrUnknown
from recommender.reading.model import Model

Count = Annotated[int, Field(ge=0, le=1000)]


class FittedCup(Model):
    """A set of cups or bearings that was pressed in before."""

    material: Name = Field(default="unknown", description="a word of the list part_materials")
    fitted: OrUnknown[Count] = Field(default=None, description="how many times this kind was pressed in")
    months: OrUnknown[Count] = Field(default=None, description="how long it stayed in, in months")
    od: OrUnknown[MeasuredSize] = Field(
        default=None, description="outside diameter measured after it came out"
    )
    side: OrUnknown[SideName] = None
    note: str = ""


class History(Model):
    """What was told, not measured. None and `unknown` where nobody asked or nobody knows."""

    symptoms: Many[Name] = Field(default=(), description="words of the list symptoms")
    ruled_out_elsewhere: Many[Name] = Field(
        default=(), description="other sources of the noise that were ruled out"
    )
    crash: Name = Field(default="unknown", description="no_crash, crashed, unknown")
    cups: OrUnknown[Annotated[Many[FittedCup], Field(max_length=60)]] = Field(
        default=None, description="earlier cups; [] when none was ever fitted"
    )
    warranty: Name = Field(default="unknown", description="open, closed, unknown")
    consent: Many[Name] = Field(default=(), description="remedies the owner has agreed to in writing")
    km: OrUnknown[Kilometres] = Field(default=None, description="distance ridden")
    rider_mass: OrUnknown[Kilograms] = None
    use: str = Field(default="", description="how it is ridden")
    washing: str = Field(default="", description="how it is washed")
    compound: str = Field(default="", description="grease or compound found in the bores")
    first_complaint: str = Field(default="", description="when the fault was first reported")
    repairs: str = Field(default="", description="earlier repairs")
    notes: str = ""
