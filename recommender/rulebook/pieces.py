"""Shells, parts, materials, bearings, instruments and tables from files to pieces of the book."""

from collections.abc import Mapping
from types import MappingProxyType

from recommender.rulebook.gather import Entry, Gathered
from recommender.rulebook.models.common import LengthBand
from recommender.rulebook.models.shells import FitClassModel, StandardModel
from recommender.rulebook.models.stock import (
    BallsModel,
    BearingModel,
    CompoundModel,
    ExpansionRange,
    InstrumentModel,
    MaterialModel,
    ModulusRange,
    PartModel,
    SpreadModel,
)
from recommender.rulebook.models.texts import TableModel
from recommender.rulebook.required import SPREADS
from recommender.rulebook.source import source_of
from recommender.rulebook.stock import (
    Balls,
    Band,
    Bearing,
    Bore,
    Compound,
    FitClass,
    Handling,
    Instrument,
    Material,
    Part,
    Range,
    Spread,
    Standard,
    Table,
    TableRow,
)

PPM = 1e-6


def standard_of(entry: Entry[StandardModel], gathered: Gathered) -> Standard:
    """Return a shell standard; parts of the house that name it belong to it too."""
    model = entry.model
    house = tuple(part.id for part in gathered.parts.values() if entry.id in part.model.standards)
    bore = Bore(model.bore.nominal, model.bore.lower, model.bore.upper)
    return Standard(
        entry.id, model.title, model.kind, bore, tuple(model.widths), (*model.parts, *house), model.stop,
        tuple(model.spindles), tuple(model.confused_with), model.notes, source_of(model.source),
        tuple(model.stops), tuple(model.materials), model.asymmetric,
    )  # fmt: skip


def fit_class_of(entry: Entry[FitClassModel]) -> FitClass:
    """Return a fit class."""
    model = entry.model
    return FitClass(
        entry.id, model.title, tuple(model.part_kinds), tuple(model.part_materials), tuple(model.bore_materials),
        MappingProxyType(model.limits.model_dump()),
    )  # fmt: skip


def material_of(entry: Entry[MaterialModel]) -> Material:
    """Return a material: modulus in MPa, expansion in 1/K."""
    model = entry.model
    modulus, expansion = _range(model.modulus), _range(model.expansion, PPM)
    return Material(entry.id, model.title, model.kind, modulus, model.poisson, expansion, source_of(model.source))


def bearing_of(entry: Entry[BearingModel]) -> Bearing:
    """Return a bearing."""
    model = entry.model
    clearance = MappingProxyType({name: (band.low, band.high) for name, band in model.clearance.items()})
    return Bearing(
        entry.id, model.title, model.bore, model.od, model.width, (model.od_band.lower, model.od_band.upper),
        clearance, tuple(model.sold), source_of(model.source), _balls(model.balls),
    )  # fmt: skip


def _balls(model: BallsModel | None) -> Balls | None:
    if model is None:
        return None
    factors = (model.bm, model.fc, model.f0)
    return Balls(model.count, model.diameter, model.pitch, *factors, source_of(model.source))


def compound_of(entry: Entry[CompoundModel]) -> Compound:
    """Return a class of retaining compound, its cure in hours."""
    model = entry.model
    return Compound(
        entry.id, model.title, (model.gap.low, model.gap.high), tuple(model.surfaces), tuple(model.with_activator),
        model.cure.to("h"), source_of(model.source),
    )  # fmt: skip


def part_of(entry: Entry[PartModel]) -> Part:
    """Return a generic part; its band is None unless both ends are known."""
    model = entry.model
    od = model.od
    band = None if od.lower is None or od.upper is None else (od.lower, od.upper)
    return Part(
        entry.id, model.title, model.kind, model.material, od.nominal, band, model.contact_length, model.seat,
        _band(model.seat_interference), model.bearing, model.turnable, source_of(model.source),
    )  # fmt: skip


def instrument_of(entry: Entry[InstrumentModel]) -> Instrument:
    """Return a kind of instrument."""
    model = entry.model
    handling = Handling(
        (model.usable.low, model.usable.high), model.reach, model.guide, model.tilt, model.off_centre, model.land,
        model.anvil, model.feel,
    )  # fmt: skip
    return Instrument(
        entry.id, model.title, model.sees, handling, model.error_limit, model.finest, model.repeatability,
        model.resolution, model.decides_fit, source_of(model.source),
    )  # fmt: skip


def spread_of(entry: Entry[SpreadModel]) -> Spread:
    """Return a default spread, in the unit formulas read it in."""
    within, finest = entry.model.within, entry.model.finest
    unit = SPREADS.get(entry.id, within.unit)
    least = 0.0 if finest is None else finest.to(unit)
    return Spread(entry.id, within.to(unit), unit, source_of(entry.model.source), least)


def table_of(entry: Entry[TableModel]) -> Table:
    """Return a table of a standard."""
    model = entry.model
    rows = tuple(TableRow(each.over, each.to, _columns(each.model_extra)) for each in model.ranges)
    return Table(entry.id, model.title, model.unit, rows, source_of(model.source))


def _columns(extra: Mapping[str, float | tuple[float, float]] | None) -> Mapping[str, float | tuple[float, float]]:
    return MappingProxyType(dict(extra or {}))


def _range(model: ModulusRange | ExpansionRange, factor: float = 1.0) -> Range:
    # Rounded so that 2.5 ppm/K is 2.5e-6 and nothing beside it.
    return Range(*(round(each * factor, 12) for each in (model.value, model.low, model.high)))


def _band(model: LengthBand | None) -> Band | None:
    return None if model is None else (model.low, model.high)
