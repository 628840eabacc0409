"""The frame as it came to the bench: material, standard, shell, openings."""

from typing import Annotated, Literal

from pydantic import AfterValidator, BeforeValidator, Field, model_validator

from recommender.bench.quantities import Degrees, Many, MeasuredLength, MeasuredSize, Name, OrUnknown
from recommender.reading.model import Model
from recommender.reading.types import quantity_in


def _stiff(value: float) -> float:
    if value <= 0:
        raise ValueError("a modulus must be greater than nothing; write the one of the data sheet")
    return value


Stiffness = Annotated[float, BeforeValidator(quantity_in("MPa", "135 GPa")), AfterValidator(_stiff)]
Growth = Annotated[float, BeforeValidator(quantity_in("ppm/K"))]
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


class Lamina(Model):
    """One layer of the laminate, along and across its fibres."""

    along: Stiffness = Field(description="modulus along the fibres")
    across: Stiffness = Field(description="modulus across the fibres")
    shear: Stiffness = Field(description="modulus in shear")
    poisson: Annotated[float, Field(gt=0, lt=1)] = Field(description="contraction across per strain along")
    expansion_along: Growth = Field(description="thermal expansion along the fibres")
    expansion_across: Growth = Field(description="thermal expansion across the fibres")


class Plies(Model):
    """The share of the thickness whose fibres run in one direction."""

    angle: Annotated[float, BeforeValidator(quantity_in("deg", "45 deg")), Field(ge=-90, le=90)] = Field(
        description="direction of the fibres; 0 deg runs round the shell"
    )
    share: Annotated[float, BeforeValidator(quantity_in("%", "25 %")), Field(gt=0, le=100)]


class Layup(Model):
    """Layers and lay-up of the shell around the bores, balanced and symmetric, for who knows them."""

    lamina: Lamina
    plies: Annotated[Many[Plies], Field(min_length=1)]
    source: str = Field(default="", description="who says so")

    @model_validator(mode="after")
    def _whole_and_balanced(self) -> "Layup":
        shares: dict[float, float] = {}
        for ply in self.plies:
            shares[ply.angle] = shares.get(ply.angle, 0.0) + ply.share
        if abs(sum(shares.values()) - 100) > 1e-6:
            raise ValueError(f"the shares of the plies add up to {sum(shares.values()):g} %; make them 100 %")
        for angle, share in shares.items():
            if abs(angle) not in (0, 90) and abs(shares.get(-angle, 0.0) - share) > 1e-6:
                raise ValueError(f"plies at {angle:g} deg have no equal share at {-angle:g} deg; balance the lay-up")
        return self


class Frame(Model):
    """The shell around both bores; None and `unknown` where nobody knows."""

    material: Name = Field(description="material of the shell, a word of the list materials")
    standard: Name = Field(description="shell standard it is taken to follow, or unknown")
    shell_width: OrUnknown[MeasuredSize] = Field(default=None, description="width over both faces")
    wall: OrUnknown[MeasuredSize] = Field(
        default=None, description="thinnest wall of the shell around the bores"
    )
    layup: OrUnknown[Layup] = Field(default=None, description="layers and lay-up of the laminate around the bores")
    spindle: OrUnknown[MeasuredSize] = Field(
        default=None, description="diameter of the spindle that will run in it"
    )
    stop: Name = Field(
        default="unknown", description="what stops a part inside the seat or at its face, a word of the list stops"
    )
    insert: Name = Field(default="unknown", description="metal insert in the shell: none, bonded, unknown")
    insert_material: Name = Field(
        default="unknown", description="material of a bonded insert, a word of the list materials"
    )
    insert_wall: OrUnknown[MeasuredSize] = Field(default=None, description="thinnest wall of a bonded insert")
    openings: OrUnknown[Annotated[Many[Opening], Field(max_length=60)]] = Field(
        default=None, description="openings near the seats; [] when there are none"
    )
    note: str = ""
