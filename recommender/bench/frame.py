"""The frame as it came to the bench: material, standard, shell, openings."""

from typing import Literal

from pydantic import Field

from recommender.bench.quantities import Degrees, Many, MeasuredLength, MeasuredSize, Name, OrUnknown
from recommender.reading.model import Model

SideName = Literal["drive", "non_drive"]


class Opening(Model):
    """An opening in the shell: a port, a drain hole, a slot; also a recess in its wall and a moulded joint."""

    kind: Name = Field(description="kind of opening, a word of the list opening_kinds")
    side: OrUnknown[SideName] = Field(default=None, description="the side it lies nearer to")
    size: OrUnknown[MeasuredSize] = Field(
        default=None, description="diameter of a round opening, length of a slot"
    )
    ligament: OrUnknown[MeasuredLength] = Field(
        default=None, description="material between the opening and `ligament_to`"
    )
    wall_left: OrUnknown[MeasuredSize] = Field(default=None, description="wall left under a recess, at its thinnest")
    ligament_to: Literal["face", "inner_end", "groove", "unknown"] = Field(
        default="face", description="the edge the ligament runs to; the face of `side` unless stated"
    )
    seat_distance: OrUnknown[MeasuredLength] = Field(
        default=None,
        description="axial distance from the seat to the nearest edge of the opening; 0 mm inside the seat",
    )
    turn: OrUnknown[Degrees] = Field(
        default=None, description="where it lies around the bore, 0 deg at the down tube"
    )
    note: str = ""


class Frame(Model):
    """The shell around both bores; None and `unknown` where nobody knows."""

    material: Name = Field(description="material of the shell, a word of the list materials")
    standard: Name = Field(description="shell standard it is taken to follow, or unknown")
    shell_width: OrUnknown[MeasuredSize] = Field(default=None, description="width over both faces")
    wall: OrUnknown[MeasuredSize] = Field(
        default=None, description="thinnest wall of the shell around the bores"
    )
    spindle: OrUnknown[MeasuredSize] = Field(
        default=None, description="diameter of the spindle that will run in it"
    )
    insert: Name = Field(default="unknown", description="metal insert in the shell: none, bonded, unknown")
    insert_material: Name = Field(
        default="unknown", description="material of a bonded insert, a word of the list materials"
    )
    insert_wall: OrUnknown[MeasuredSize] = Field(default=None, description="thinnest wall of a bonded insert")
    openings: OrUnknown[Many[Opening]] = Field(
        default=None, description="openings near the seats; [] when there are none"
    )
    note: str = ""
