"""What the last pressing, by its force or for want of one, allows of the interference: evidence on bore and part."""

from collections.abc import Iterator

import numpy as np

from recommender.bench.sides import Press
from recommender.deriving.candidate import Array, Candidate
from recommender.deriving.collector import Collector
from recommender.deriving.grip import friction_pair
from recommender.deriving.options import SideWork
from recommender.deriving.press_record import ENDS, materials_before
from recommender.deriving.pressed import UM
from recommender.deriving.stack import Stack
from recommender.mechanics.amount import ends
from recommender.mechanics.grip import pressure_from_push_in
from recommender.mechanics.rings import pressures_per_mm

FACTS = ("grip.allowed_most", "grip.allowed_least", "grip.sizes_over_force", "grip.force_over_sizes")
UNFELT = "grip.unfelt_force"
PAST_FIT = "cause.tightest_past_fit"
NOT_TOLD = "how the last part went in is not known well enough to bound its interference"
NO_SIZE = "no cup taken out of this bore was measured"


def pressing_allows(work: SideWork, made: Collector) -> None:
    """Derive the interference that agrees with the last pressing, and by how much the measured sizes disagree.

    At most: the greatest force over the least friction, on the softest stack, a cup without its bearing. At least:
    a measured force over the greatest friction, on the stiffest stack. Peaks pressed flat are added to the former.
    """
    press: Press = getattr(work.case.sides, work.name).press
    force = press.force.value if press.force is not None else _unfelt(press, work)
    bounds = [] if force is None else list(_bounds(force, work))
    if not bounds:
        for fact in FACTS:
            made.unknown(fact, NOT_TOLD)
        return
    limits = ("limit:roughness.loss",) if press.force is not None else ("limit:roughness.loss", f"limit:{UNFELT}")
    inputs = (*_noted(press, work), *limits)
    most = max(high for _, high in bounds) / UM + work.book.limits["roughness.loss"].value
    made.exact("grip.allowed_most", most, *inputs)
    _beside_sizes("grip.sizes_over_force", "grip.allowed_most", -1.0, most, made)
    if press.force is None:
        made.unknown("grip.allowed_least", "no force was measured", *inputs)
        made.unknown("grip.force_over_sizes", "no force was measured", *inputs)
        return
    least = min(low for low, _ in bounds) / UM
    made.exact("grip.allowed_least", least, *inputs)
    _beside_sizes("grip.force_over_sizes", "grip.allowed_least", 1.0, least, made)


def _unfelt(press: Press, work: SideWork) -> float | None:
    return work.book.limits[UNFELT].value if press.feel == "no_resistance" else None


def _noted(press: Press, work: SideWork) -> tuple[str, ...]:
    field, shown = ("feel", press.feel) if press.force is None else ("force", f"{press.force.value:g} N")
    return (work.log.keep(("sides", work.name, "press", field), "how the last part went in", shown),)


def _beside_sizes(fact: str, bound: str, sign: float, value: float, made: Collector) -> None:
    """Keep bound less sizes (sign 1) or sizes less bound (sign -1), with the interval of the sizes."""
    sizes = made.facts.get(PAST_FIT)
    if sizes is None or sizes.value is None or sizes.low is None or sizes.high is None:
        made.unknown(fact, NO_SIZE, bound)
        return
    middle, *ends = (sign * (value - each) for each in (sizes.value, sizes.low, sizes.high))
    made.between(fact, middle, min(ends), max(ends), bound, PAST_FIT, beyond=sizes.beyond)


def _bounds(force: float, work: SideWork) -> Iterator[tuple[float, float]]:
    """Yield the least and the most interference (mm) for every part of this shell that may have been the last one."""
    materials = materials_before(work.case, work.name)
    for each in work.standard.parts:
        part = work.book.parts[each]
        if part.material not in materials and part.kind == "cup":
            continue
        pair = friction_pair(part.material, work.bore_material)
        least, most = (work.book.limits[f"{pair}.{end}"].value for end in ENDS)
        plain = Candidate(
            "press_as_is", part.id, part, part.material, None, work.bore_material, (work.form,), None, (), False
        )
        length = work.contact_length(part)
        stack = work.stack(plain, length)
        low, high = (pressure_from_push_in(force, mu, stack.bore, length) for mu in (most, least))
        soft, stiff = _stiffness(stack)
        yield float(low) / stiff, float(high) / soft


def _stiffness(stack: Stack) -> tuple[float, float]:
    """Return the least and the greatest pressure per mm of interference (MPa/mm), a cup with or without its bearing."""
    full = stack.per_mm[stack.seat]
    bare = full if stack.seat == 0 or stack.laminate_behind else _without_bearing(stack)
    return ends(bare)[0], ends(full)[1]


def _without_bearing(stack: Stack) -> Array:
    rings = stack.rings[1 : stack.seat + 2]
    return np.asarray(pressures_per_mm(rings, outermost_stiffening=stack.stiffening)[-1])
