"""One bore of the shell: its seat, its state, the readings, gauges and press record."""

from collections.abc import Iterator
from typing import Annotated, Any

from pydantic import BeforeValidator, Field, model_validator

from recommender.bench import readings as sheet
from recommender.bench.gauges import Gauge
from recommender.bench.quantities import Many, MeasuredForce, MeasuredLength, MeasuredSize, Name, OrUnknown
from recommender.bench.readings import Path, ReadingPoint, Readings, SpanPoint
from recommender.bench.scans import ScanPoints, scans
from recommender.reading.model import Model


def _none_taken(given: Any) -> Any:
    return () if given == "none" else given


class BoreState(Model):
    """The state the bore was in when it was measured."""

    cleaned: Name = Field(default="unknown", description="yes_cleaned, not_cleaned, unknown")
    coating: Name = Field(default="unknown", description="none, paint, anodised, unknown")
    cut_before: Name = Field(default="unknown", description="uncut, reamed, unknown")


class Press(Model):
    """How the last part went in."""

    force: OrUnknown[MeasuredForce] = Field(default=None, description="largest force while pressing")
    feel: Name = Field(default="unknown", description="no_resistance, normal, hard, unknown")
    by: Name | None = Field(default=None, description="who pressed it")
    note: str = ""


class Groove(Model):
    """A circlip groove in the bore."""

    start: MeasuredLength = Field(description="distance of its outer edge from the face")
    width: MeasuredSize
    diameter: OrUnknown[MeasuredSize] = None


class Side(Model):
    """One bore, seen from its own face. Without a reading it must say why."""

    readings: Annotated[Many[Readings], BeforeValidator(_none_taken)] = Field(
        description="blocks of readings, or none together with a reason"
    )
    reason: Name | None = Field(default=None, description="why nothing was read on this side")
    seat_depth: OrUnknown[MeasuredSize] = Field(default=None, description="length of the seat from the face")
    chamfer: OrUnknown[MeasuredLength] = Field(
        default=None, description="axial length of the chamfer at the mouth"
    )
    shoulder: OrUnknown[MeasuredLength] = Field(
        default=None, description="distance of the axial stop from the face"
    )
    groove: OrUnknown[Groove] = Field(default=None, description="circlip groove, where there is one")
    wall: OrUnknown[MeasuredSize] = Field(
        default=None, description="thinnest wall here, where the sides differ"
    )
    insert_wall: OrUnknown[MeasuredSize] = Field(
        default=None, description="thinnest insert wall here, where the sides differ"
    )
    bore_state: BoreState = Field(default_factory=BoreState)
    gauges: Many[Gauge] = Field(default=(), max_length=60, description="plug gauges tried in this bore")
    press: Press = Field(default_factory=Press)
    note: str = ""

    @model_validator(mode="after")
    def _read_or_reason(self) -> "Side":
        if not self.readings and self.reason is None:
            raise ValueError(
                "nothing was read on this side and nobody says why; write `readings: none` and a `reason`"
            )
        if self.readings and self.reason is not None:
            raise ValueError("`reason` says why nothing was read, but there are readings; use `note` instead")
        return self

    @property
    def was_read(self) -> bool:
        """Return whether any reading was taken in this bore."""
        return bool(self.readings)


class Sides(Model):
    """Both bores; a side that was not read says so."""

    drive: Side
    non_drive: Side

    def items(self) -> tuple[tuple[str, Side], tuple[str, Side]]:
        """Return both sides with their names."""
        return (("drive", self.drive), ("non_drive", self.non_drive))


def readings_of(side: Side, path: Path = ()) -> list[ReadingPoint]:
    """Return every single reading of a side, struck ones too; `path` is the side's own path in the case."""
    return [point for at, block in _blocks(side, path) for point in sheet.points(block, at)]


def spans_of(side: Side, path: Path = ()) -> list[SpanPoint]:
    """Return every span of a side, struck ones too; `path` is the side's own path in the case."""
    return [span for at, block in _blocks(side, path) for span in sheet.spans(block, at)]


def scans_of(side: Side, path: Path = ()) -> list[ScanPoints]:
    """Return every scanned section of a side, struck ones too; `path` is the side's own path in the case."""
    return [section for at, block in _blocks(side, path) for section in scans(block, at)]


def _blocks(side: Side, path: Path) -> Iterator[tuple[Path, Readings]]:
    for index, block in enumerate(side.readings):
        yield (*path, "readings", index), block
