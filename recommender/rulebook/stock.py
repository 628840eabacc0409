"""What the book knows of shells, parts, materials, bearings and instruments. Lengths in mm."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, NamedTuple

SourceKind = Literal["published", "reported", "common_practice", "memory", "shop"]
SOURCE_WORDS: dict[SourceKind, str] = {
    "published": "published",
    "reported": "reported",
    "common_practice": "common practice, no source",
    "memory": "from memory",
    "shop": "this shop",
}
Band = tuple[float, float]
Feel = Literal["little", "some", "much"]


@dataclass(frozen=True, slots=True)
class Source:
    """Where a number or a rule comes from, with the mark of how much it can bear."""

    kind: SourceKind
    text: str = ""
    title: str = ""
    edition: str = ""
    page: str = ""

    def __str__(self) -> str:
        """Return the line an account prints: the mark, then what is known of the source."""
        told = ", ".join(part for part in (self.title, self.edition, self.page, self.text) if part)
        return f"{SOURCE_WORDS[self.kind]}: {told}" if told else SOURCE_WORDS[self.kind]


class Range(NamedTuple):
    """A number with the ends it may lie between."""

    value: float
    low: float
    high: float


class Bore(NamedTuple):
    """Nominal bore of a standard and its published limits, None where none is published (mm)."""

    nominal: float
    lower: float | None
    upper: float | None


@dataclass(frozen=True, slots=True)
class Standard:
    """One shell standard; `parts` are the parts that belong to it, `widths` and `spindles` in mm.

    Empty `stops` or `materials` leave it open which one; an asymmetric shell has its non-drive seat further out.
    """

    id: str
    title: str
    kind: Literal["press_cup", "direct_bearing", "threaded"]
    bore: Bore
    widths: tuple[float, ...]
    parts: tuple[str, ...]
    stop: str
    spindles: tuple[float, ...]
    confused_with: tuple[str, ...]
    notes: str
    source: Source
    stops: tuple[str, ...] = ()
    materials: tuple[str, ...] = ()
    asymmetric: bool = False


@dataclass(frozen=True, slots=True)
class FitClass:
    """Pairs of part and bore that share one interference window.

    `limits` maps bar_low, aim_low, aim_high and bar_high to limit ids.
    """

    id: str
    title: str
    part_kinds: tuple[str, ...]
    part_materials: tuple[str, ...]
    bore_materials: tuple[str, ...]
    limits: Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Material:
    """Modulus (MPa), Poisson's ratio and expansion (1/K) of a material, with the range they may lie in."""

    id: str
    title: str
    kind: Literal["laminate", "metal", "polymer"]
    modulus: Range
    poisson: float
    expansion: Range
    source: Source


@dataclass(frozen=True, slots=True)
class Balls:
    """The row of balls of a bearing: count, ball and pitch diameter (mm), and the factors of its ratings."""

    count: int
    diameter: float
    pitch: float
    bm: float
    fc: float
    f0: float
    source: Source


@dataclass(frozen=True, slots=True)
class Compound:
    """A class of retaining compound: the band of gaps it fills (mm, on diameter), what it cures on, hours to cure."""

    id: str
    title: str
    gap: Band
    surfaces: tuple[str, ...]
    with_activator: tuple[str, ...]
    cure: float
    source: Source


@dataclass(frozen=True, slots=True)
class Bearing:
    """A bearing by designation: inner and outer diameter, width, OD band and radial clearance by class (mm)."""

    id: str
    title: str
    inner: float
    outer: float
    width: float
    od: Band
    clearance: Mapping[str, Band]
    sold: tuple[str, ...]
    source: Source
    balls: Balls | None = None


@dataclass(frozen=True, slots=True)
class Part:
    """A generic part: nominal OD and its band if one is known, contact length, and the bearing it carries (mm).

    `seat` is the diameter of the bearing's seat in a cup, `seat_interference` the band of its fit if known.
    """

    id: str
    title: str
    kind: Literal["bearing", "cup"]
    material: str
    nominal: float
    od: Band | None
    length: float
    seat: float | None
    seat_interference: Band | None
    bearing: str
    can_be_turned: bool
    source: Source


class Handling(NamedTuple):
    """How a kind of instrument sits in a bore (mm; `tilt` in arcmin).

    `usable` sizes; `reach` into the bore, None without end; `guide` is the seat its head needs to stand square, None
    where it is rocked or swept; `tilt` how far it may lean otherwise; `off_centre` how far beside a diameter it may
    stand; `land` the width of flat contacts across, `anvil` their length along the bore; `feel` of the hand.
    """

    usable: Band
    reach: float | None
    guide: float | None
    tilt: float
    off_centre: float
    land: float
    anvil: float
    feel: Feel


@dataclass(frozen=True, slots=True)
class Instrument:
    """A kind of instrument: what its readings can see, and its errors where the case says nothing (mm).

    `finest` is the error limit under which no certificate of this kind is believed.
    """

    id: str
    title: str
    sees: Literal["two_point", "three_point", "points", "diameter_only"]
    handling: Handling
    error_limit: float
    finest: float
    repeatability: float
    resolution: float
    decides_fit: bool
    source: Source


@dataclass(frozen=True, slots=True)
class Spread:
    """Default 95 % half-spread of one kind of measured number, in `unit` (mm, K or arcmin).

    `finest` is the spread under which no statement is believed.
    """

    id: str
    value: float
    unit: str
    source: Source
    finest: float = 0.0


class TableRow(NamedTuple):
    """Values for sizes over `over` up to and including `to` (mm), by column: a number or upper and lower."""

    over: float
    to: float
    columns: Mapping[str, float | tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Table:
    """A table of a standard, values in `unit`."""

    id: str
    title: str
    unit: str
    rows: tuple[TableRow, ...]
    source: Source


@dataclass(frozen=True, slots=True)
class Cause:
    """One way a bore may have come to be what it is."""

    id: str
    title: str
