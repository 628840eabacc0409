"""How a part holds: the force that presses it in, the force that would move it, and when its seat starts to gap."""


from recommender.bench.case import Case
from recommender.deriving.alignment import seat_span
from recommender.deriving.collector import Collector
from recommender.deriving.pressed import Pressed, not_negative
from recommender.mechanics.grip import axial_capacity, drive_side_load, gap_starts_at, push_in_force, torque_capacity
from recommender.rulebook.book import Rulebook

LIMITS = ("pedalling.outboard", "pedalling.crank", "pedalling.teeth", "pedalling.chain_line")
FACTS = ("grip.gaps_at", "grip.axial", "grip.torque")
NM = 1e-3
Force = tuple[float, float]


def grip_facts(pressed: Pressed, case: Case, made: Collector) -> None:
    """Derive axial force and torque that would move the part, and the pedal force at which its seat starts to gap."""
    diameter = pressed.stack.bore
    friction = f"{pair_of(pressed)}.hold_least"
    later = pressed.by.summary(not_negative(pressed.long_term))
    for fact, per_mpa in (
        ("grip.axial", axial_capacity(1.0, pressed.limit(friction), diameter, pressed.length)),
        ("grip.torque", torque_capacity(1.0, pressed.limit(friction), diameter, pressed.length) * NM),
    ):
        pressed.summed(made, fact, later.times(float(per_mpa)), "fit.long_term_pressure", f"limit:{friction}")
    span = seat_span(case)
    if span is None:
        made.unknown("grip.gaps_at", "shell width or seat depth is missing")
        return
    per_mpa = gap_starts_at(1.0, load_per_newton(span, pressed.book), diameter / 2, pressed.length)
    inputs = ("fit.pressure", "frame.width_difference", *(f"limit:{each}" for each in LIMITS))
    pressed.summed(made, "grip.gaps_at", pressed.by.summary(pressed.held).times(float(per_mpa)), *inputs)


def load_per_newton(span: float, book: Rulebook) -> float:
    """Return the radial load on the drive-side bearing per newton at the pedal, the bearings `span` mm apart."""
    outboard, crank, teeth, chain_line = (book.limits[each].value for each in LIMITS)
    return float(drive_side_load(1.0, outboard, span, crank, round(teeth), chain_line))


def pair_of(pressed: Pressed) -> str:
    """Return the friction pair of part and bore as the limits name it."""
    return friction_pair(pressed.candidate.material, pressed.candidate.bore_material)


def friction_pair(part: str, bore: str | None) -> str:
    """Return the friction pair of a part's and a bore's material; a bore nobody knows counts as carbon."""
    if part == "polymer":
        return "friction_polymer"
    return "friction_metal_in_carbon" if bore in (None, "carbon") else "friction_metal_in_metal"


def press_forces(pressed: Pressed) -> dict[str, Force] | None:
    """Return the force (N) the press is forecast to need at the end of its way, greased and dry; None where loose."""
    if pressed.pressure_ends[1] <= 0:
        return None
    return {how: _force(pressed, how) for how in ("greased", "dry")}


def _force(pressed: Pressed, how: str) -> Force:
    limits = (f"{pair_of(pressed)}.{how}_{end}" for end in ("least", "most"))
    low, high = (
        float(push_in_force(pressure, pressed.limit(limit), pressed.stack.bore, pressed.length))
        for pressure, limit in zip(pressed.pressure_ends, limits, strict=True)
    )
    return round(low, -1), round(high, -1)
