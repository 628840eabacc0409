"""What a press fit holds, what it takes to push it in, and what riding asks of it."""

import math

import numpy as np

from recommender.mechanics.amount import Amount, require_positive

CHAIN_PITCH = 12.7
"""Pitch of a bicycle chain (mm), half an inch."""


def axial_capacity(pressure: Amount, friction: Amount, diameter: Amount, length: Amount) -> Amount:
    """Return the axial force (N) at which a seat slips. Source: Coulomb friction over the seat's area."""
    require_positive(diameter=diameter, length=length)
    return friction * pressure * math.pi * diameter * length


def torque_capacity(pressure: Amount, friction: Amount, diameter: Amount, length: Amount) -> Amount:
    """Return the torque (N mm) at which a seat slips. Source: Coulomb friction over the seat's area."""
    return axial_capacity(pressure, friction, diameter, length) * diameter / 2


def push_in_force(pressure: Amount, friction: Amount, diameter: Amount, length: Amount) -> Amount:
    """Return the force (N) at the end of pressing in, growing evenly with depth; none when loose."""
    return np.maximum(axial_capacity(pressure, friction, diameter, length), 0.0)


def pressure_from_push_in(force: Amount, friction: Amount, diameter: Amount, length: Amount) -> Amount:
    """Return the mean pressure (MPa) that a measured push-in force (N) speaks of."""
    require_positive(friction=friction)
    return force / axial_capacity(1.0, friction, diameter, length)


def long_term_pressure(pressure: Amount, creep: Amount) -> Amount:
    """Return the pressure (MPa) left after creep: `creep` (0 to 1) is the long-term over the short-term modulus."""
    if not np.all((np.asarray(creep) > 0) & (np.asarray(creep) <= 1)):
        raise ValueError("a creep factor lies above 0 and not above 1")
    return pressure * creep


def bearing_loads(force: Amount, outboard: Amount, span: Amount) -> tuple[Amount, Amount]:
    """Return the loads (N) on the near and the far bearing from a force beyond the near one.

    `outboard` (mm) is the force's distance from the middle between the bearings, `span` (mm) between their
    centres; the far load is negative where it points the other way. Source: statics of a beam on two
    supports.
    """
    require_positive(span=span)
    near = force * (outboard + span / 2) / span
    return near, force - near


def chain_pull(force: Amount, crank: Amount, teeth: int) -> Amount:
    """Return the pull of the chain (N) from a pedal force (N) on a level crank (mm) and a chainring."""
    if teeth < 3:
        raise ValueError("a chainring has at least three teeth")
    return force * crank / (CHAIN_PITCH / (2 * math.sin(math.pi / teeth)))


def drive_side_load(
    force: Amount, outboard: Amount, span: Amount, crank: Amount, teeth: int, chain_line: Amount
) -> Amount:
    """Return the radial load (N) on the drive-side bearing: pedal pressed down there, chain pulled level."""
    down, _ = bearing_loads(force, outboard, span)
    level, _ = bearing_loads(chain_pull(force, crank, teeth), chain_line, span)
    return np.hypot(down, level)


def no_gap_pressure(load: Amount, radius: Amount, length: Amount, offset: Amount = 0.0) -> Amount:
    """Return the pressure (MPa) that keeps the unloaded side of a seat closed under a radial load (N).

    `offset` (mm) is from the middle of the seat to the bearing's. Source: cosine pressure of a radial load
    without friction, and its moment spread linearly over the seat.
    """
    require_positive(radius=radius, length=length)
    return load / (math.pi * radius * length) * (1 + 6 * offset / length)


def gap_starts_at(
    pressure: Amount, load_per_newton: Amount, radius: Amount, length: Amount, offset: Amount = 0.0
) -> Amount:
    """Return the pedal force (N) at which a seat under `pressure` (MPa) starts to gap; 0 when it is loose.

    `load_per_newton` is the bearing's radial load per newton at the pedal.
    """
    require_positive(load_per_newton=load_per_newton)
    return np.maximum(pressure, 0.0) / no_gap_pressure(load_per_newton, radius, length, offset)
