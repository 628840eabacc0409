"""A raw reading set right on its ring and for how its instrument sits, and brought to 20 C, with the doubts of it."""

from math import hypot, radians, sqrt
from typing import NamedTuple

from recommender.bench.case import Case
from recommender.bench.instruments import Instrument
from recommender.bench.quantities import MeasuredTemperature
from recommender.deriving.frame import REFERENCE, bore_material
from recommender.deriving.lay_up import material_of
from recommender.deriving.spreads import COVERAGE, InstrumentSpread, instrument_spread, ring_read, scalar_spread
from recommender.metrology.handling import off_centre, on_lands, one_sided, tilted
from recommender.metrology.sheet import Sees, Shared
from recommender.metrology.temperature import corrected, correction_uncertainty
from recommender.rulebook.book import Rulebook

INSTRUMENT_MATERIAL = "steel"
ARCMIN = radians(1 / 60)


class Corrected(NamedTuple):
    """A diameter at 20 C in mm, the spread of its instrument, and the errors it shares with other readings."""

    value: float
    spread: InstrumentSpread
    shared: Shared


def correct(value: float, instrument: Instrument, seat_depth: float | None, case: Case, book: Rulebook) -> Corrected:
    """Return a reading set right on its ring, for how the instrument sits in this seat (mm), and brought to 20 C."""
    spread = instrument_spread(instrument, book)
    add, ring = on_ring(instrument, case, book)
    seated = [one_sided(end) for end in sits_off(value, instrument, seat_depth, book).values()]
    true = value + add - sum(each.mean for each in seated)
    at_20, u = to_reference(true, instrument.temperature, case, book)
    shared = [(f"instrument {instrument.id}", spread.shared), *ring]
    if seated:
        shared.append((f"handling {instrument.id}", sqrt(sum(each.u**2 for each in seated))))
    return Corrected(at_20, spread, (*shared, ("temperature", u)))


def sees_of(instrument: Instrument, book: Rulebook) -> Sees:
    """Return what the readings of an instrument can see."""
    return "three_point" if book.instruments[instrument.kind].sees == "three_point" else "two_point"


def sits_off(
    diameter: float, instrument: Instrument, seat_depth: float | None, book: Rulebook
) -> dict[str, float]:
    """Return what an instrument reads beside the diameter at most, in mm by cause, because of how it sits."""
    held = book.instruments[instrument.kind].handling
    found = {}
    if held.off_centre:
        found["off centre"] = off_centre(diameter, held.off_centre)
    if held.land:
        found["flat contacts"] = on_lands(diameter, held.land)
    if held.guide is not None and seat_depth is not None and seat_depth < held.guide:
        found["tilt in a short seat"] = tilted(diameter, held.tilt * ARCMIN, sees_of(instrument, book))
    return found


def on_ring(instrument: Instrument, case: Case, book: Rulebook) -> tuple[float, Shared]:
    """Return what to add to a reading so that the instrument agrees with its ring (mm), and the doubt of the ring.

    A ring warmer than the instrument is larger than its certificate says, seen by the instrument: both are steel.
    """
    ring = instrument.ring
    if ring is None:
        return 0.0, ()
    name, size = f"ring {instrument.id}", scalar_spread(ring.size, "ring", case, book)
    read = ring_read(instrument)
    if read is None:
        return 0.0, ((name, size.u),)
    steel = book.materials[INSTRUMENT_MATERIAL].expansion.value
    ring_at, own_at = ring.temperature, instrument.temperature or case.bench.frame_temperature
    if ring_at is None or own_at is None:
        return ring.size.value - read, ((name, size.u),)
    doubts = [scalar_spread(each, "temperature", case, book).u for each in (ring_at, own_at)]
    grown = ring.size.value * steel * (ring_at.value - own_at.value)
    return ring.size.value + grown - read, ((name, hypot(size.u, ring.size.value * steel * hypot(*doubts))),)


def to_reference(value: float, own: MeasuredTemperature | None, case: Case, book: Rulebook) -> tuple[float, float]:
    """Return a bore size brought to 20 C and the standard uncertainty of doing so.

    Without a frame temperature nothing is corrected; the default doubt of a temperature stands for it.
    """
    material = material_of(bore_material(case) or "carbon", case, book)
    steel = book.materials[INSTRUMENT_MATERIAL]
    frame = case.bench.frame_temperature
    warm = frame.value if frame else REFERENCE
    tool = own.value if own else warm
    doubt = (
        scalar_spread(frame, "temperature", case, book).u if frame else (book.spreads["temperature"].value / COVERAGE)
    )
    grows, steel_grows = material.expansion, steel.expansion
    at_20 = corrected(value, warm, tool, grows.value, steel_grows.value)
    u = correction_uncertainty(
        value,
        warm,
        tool,
        grows.value,
        steel_grows.value,
        u_alpha_frame=(grows.high - grows.low) / 2 / sqrt(3.0),
        u_alpha_instrument=(steel_grows.high - steel_grows.low) / 2 / sqrt(3.0),
        u_frame_temperature=doubt,
        u_instrument_temperature=doubt,
    )
    return float(at_20), float(u)
