"""Draw by draw, the diameter of a part at which each limit is reached: what the window of diameters is cut from.

Every fact a limit asks rises or falls evenly with the part's diameter, so each limit can be turned round in closed
form: a part keeps a limit for certain where its diameter lies beyond the unlucky end of these draws, and breaks it for
certain beyond the lucky end.
"""

from typing import NamedTuple

import numpy as np

from recommender.deriving.bearing import (
    bearing_of,
    clearance_before,
    closing,
)
from recommender.deriving.candidate import Array, Form
from recommender.deriving.draws_of import normal
from recommender.deriving.frame import REFERENCE
from recommender.deriving.pressed import UM, Pressed
from recommender.deriving.spreads import COVERAGE
from recommender.deriving.strain import behind_insert, bending, hoop_strain
from recommender.mechanics.bearing import ring_hoop_stress
from recommender.rulebook.book import FitClass, Rulebook

NEVER = 10.0
SLIPS_BY_KIND = "bearing_in_carbon"
COLD, HOT = "riding.coldest", "riding.hottest"
RING_STRESS, CLEARANCE = "bearing.ring_stress_limit", "bearing.clearance_least"
ONE = 0.1


class Edges(NamedTuple):
    """Draws of the least and the greatest diameter (mm) by each limit, by the limit's id.

    `error` is what the part measures too much (mm): the diameters are those that would be read.
    """

    least: dict[str, Array]
    greatest: dict[str, Array]
    error: Array


def measured_error(book: Rulebook) -> Array:
    """Return draws of what a made part measures too much (mm)."""
    return normal("part_od", 0.0, book.limits["making.measured_within"].value * UM / COVERAGE)


def class_limit(book: Rulebook, fit_class: FitClass, which: str) -> float:
    """Return one of the four numbers of a fit class in mm of interference."""
    return book.limits[fit_class.limits[which]].value * UM


def class_edges(form: Form, fit_class: FitClass, book: Rulebook, error: Array) -> Edges:
    """Return where the bars of a fit class stand over a bore; `error` is what the part measures too much (mm)."""
    low, high = (class_limit(book, fit_class, which) for which in ("bar_low", "bar_high"))
    return Edges(
        {fit_class.limits["bar_low"]: form.mean - error + low},
        {fit_class.limits["bar_high"]: form.inscribed - error + high},
        error,
    )


def all_edges(pressed: Pressed, form: Form, error: Array) -> Edges:
    """Return where every limit on a part's diameter stands: class, grip in cold and heat, strain, bearing."""
    candidate, book = pressed.candidate, pressed.book
    assert candidate.fit_class is not None, "a part without a fit class has no window"
    edges = class_edges(form, candidate.fit_class, book, error)
    if candidate.fit_class.id != SLIPS_BY_KIND:
        for limit in (COLD, HOT):
            edges.least[limit] = form.mean - error + _held_from(pressed, limit)
    at_most = {**_strained_to(pressed), **_ring_to(pressed)}
    edges.greatest.update({limit: form.inscribed - error + most for limit, most in at_most.items()})
    return edges


def _held_from(pressed: Pressed, limit: str) -> Array:
    """Return the interference (mm) from which the part still holds at an end of the riding range."""
    seat = pressed.stack.seat
    warmed = pressed.stack.per_kelvin[seat] * (pressed.limit(limit) - REFERENCE)
    least = pressed.limit("grip.least_pressure")
    return np.asarray((least - warmed) / pressed.stack.per_mm[seat])


def _strained_to(pressed: Pressed) -> dict[str, Array]:
    """Return the interference (mm) at which each strain limit of the shell is reached."""
    per_mm = hoop_strain(pressed.stack, pressed.stack.pressures(ONE)) / ONE
    bent = bending(pressed)
    if pressed.candidate.bore_material != "carbon":
        allowed = pressed.limit("metal.tension") * 1e-6
        found = {"metal.tension": _upto(allowed, pressed.openings.tension, bent, per_mm)}
        return {**found, **_behind_to(pressed, bent)}
    return {
        limit: _upto(pressed.limit(limit) * 1e-6, factor, bent, per_mm)
        for limit, factor in (
            ("laminate.tension", pressed.openings.tension),
            ("laminate.compression", pressed.openings.compression),
        )
    }


def _behind_to(pressed: Pressed, bent: Array) -> dict[str, Array]:
    """Return the interference (mm) at which laminate behind bonded metal reaches its limit; nothing without any."""
    if not pressed.stack.laminate_behind:
        return {}
    per_mm = behind_insert(pressed.stack, pressed.stack.pressures(ONE)) / ONE
    allowed = pressed.limit("laminate.tension") * 1e-6
    return {"laminate.tension": _upto(allowed, pressed.openings.tension, bent, per_mm)}


def _upto(allowed: float, factor: Array | float, bent: Array, per_mm: Array) -> Array:
    """Return the interference (mm) at which factor x (hoop + bending) reaches what is allowed; far off where never."""
    factors = np.broadcast_to(np.asarray(factor, dtype=float), bent.shape)
    hoop = np.divide(allowed, factors, out=np.full(bent.shape, np.inf), where=factors > 0) - bent
    return np.clip(np.where(hoop > 0, hoop / per_mm, -NEVER), -NEVER, NEVER)


def _ring_to(pressed: Pressed) -> dict[str, Array]:
    """Return the interference (mm) at which ring stress, ring interference and the largest class reach their limits."""
    loss = pressed.limit("roughness.loss") * UM
    closed, bearing = closing(pressed), bearing_of(pressed)
    stress = -np.asarray(ring_hoop_stress(pressed.stack.bearing_ring, 1.0))
    free = pressed.limit(RING_STRESS) / stress - pressed.stack.cup_pressure
    room = clearance_before(pressed) - closed.in_cup - closed.oval - pressed.limit(CLEARANCE) * UM
    found = {
        RING_STRESS: _room(free, pressed.stack.per_mm[0], loss),
        CLEARANCE: _room(room, closed.per_mm, loss),
    }
    widest = f"bearing.ring_widest_{bearing.outer:g}"
    if pressed.candidate.part.kind == "bearing" and widest in pressed.book.limits:
        found[widest] = np.full(closed.oval.shape, pressed.limit(widest) * UM)
    return found


def _room(room: Array, per_mm: Array, loss: float) -> Array:
    return np.where(room > 0, np.clip(room / per_mm, 0.0, NEVER) + loss, -NEVER)
