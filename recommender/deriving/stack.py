"""The rings that a pressed part makes with its bearing and the shell, with the doubt of wall and moduli."""

from dataclasses import dataclass, replace
from functools import cached_property
from typing import NamedTuple

import numpy as np

from recommender.bench.case import Case
from recommender.deriving.candidate import Candidate
from recommender.deriving.derived import SideName
from recommender.deriving.draws_of import Array, even, normal
from recommender.deriving.frame import REFERENCE
from recommender.deriving.lay_up import material_of
from recommender.deriving.spreads import COVERAGE, scalar_spread
from recommender.mechanics.amount import middle
from recommender.mechanics.bearing import closure_factor, mean_raceway_diameter
from recommender.mechanics.oval import ContactLimits, bending_factor, contact_limits, share_of_race
from recommender.mechanics.rings import Ring, hoop_strain_at_bore, pressures_per_mm, stack_pressures
from recommender.mechanics.seat import pressure_factor
from recommender.mechanics.strain import shell_hoop_strain
from recommender.rulebook.book import Material, Rulebook

THINNEST = 0.1


@dataclass(frozen=True, eq=False)
class Stack:
    """Rings inside to outside, which interface is between part and bore, and the stiffening of a short seat.

    Pressure and strain rise evenly with interference and temperature, so what the rings alone settle is worked out
    once, whatever is pressed into them. `bore` is the bore's diameter in mm; `laminate_behind` tells whether the part
    sits in metal that is bonded into laminate; `cup_seat` is the interference of the bearing in its cup (mm), None
    where no cup or no seat is known.
    """

    rings: tuple[Ring, ...]
    seat: int
    stiffening: Array | float
    wall_assumed: bool
    bore: float
    laminate_behind: bool = False
    cup_seat: Array | None = None

    @property
    def bearing_ring(self) -> Ring:
        """Return the bearing's outer ring."""
        return self.rings[0]

    @property
    def shell(self) -> Ring:
        """Return the ring the part sits in."""
        return self.rings[self.seat + 1]

    def pressures(self, interference: Array | float, temperature: float = REFERENCE) -> list[Array]:
        """Return the pressure at every interface (MPa) for the interference of the seat (mm), at so many degC."""
        tight = [per_mm * interference for per_mm in self.per_mm]
        if temperature == REFERENCE:
            return tight
        warmer = temperature - REFERENCE
        return [pressure + per_kelvin * warmer for pressure, per_kelvin in zip(tight, self.per_kelvin, strict=True)]

    @cached_property
    def per_mm(self) -> list[Array]:
        """Return the pressure at every interface (MPa) per mm of interference of the part's seat."""
        return self._solved([1.0 if index == self.seat else 0.0 for index in range(len(self.rings) - 1)], 0.0)

    @cached_property
    def per_kelvin(self) -> list[Array]:
        """Return by how much every pressure (MPa) grows when the stack is one kelvin warmer."""
        return self._solved([0.0] * (len(self.rings) - 1), 1.0)

    def _solved(self, interferences: list[Array | float], warmer: float) -> list[Array]:
        found = stack_pressures(self.rings, interferences, warmer, outermost_stiffening=self.stiffening)
        return [np.asarray(each) for each in found]

    @cached_property
    def closing_per_mm(self) -> Array:
        """Return by how much the raceway closes (mm) per mm of interference of the part's seat."""
        return np.asarray(closure_factor(self.bearing_ring, self.per_mm[0]))

    @cached_property
    def cup_pressure(self) -> Array | float:
        """Return the pressure round the bearing's ring (MPa) from its own seat in a cup."""
        return 0.0 if self.cup_seat is None else self._cup_seat_per_mm * np.maximum(self.cup_seat, 0.0)

    @cached_property
    def closed_by_cup(self) -> Array | float:
        """Return by how much its own seat in a cup closes the raceway (mm)."""
        if self.cup_seat is None:
            return 0.0
        return np.asarray(closure_factor(self.bearing_ring, self._cup_seat_per_mm) * np.maximum(self.cup_seat, 0.0))

    @cached_property
    def _cup_seat_per_mm(self) -> Array:
        return np.asarray(pressures_per_mm(self.rings[:2])[0])

    @cached_property
    def strain_alone(self) -> Array:
        """Return the hoop strain of the ring round the part per MPa inside it, when nothing backs it up."""
        return np.asarray(shell_hoop_strain(self.shell, 1.0, self.stiffening))

    @cached_property
    def strain_inside(self) -> Array:
        """Return the hoop strain of the ring round the part per MPa inside it, backed up by the rings outside."""
        return np.asarray(hoop_strain_at_bore(self.shell, 1.0, 0.0))

    @cached_property
    def strain_outside(self) -> Array:
        """Return the hoop strain of the ring round the part per MPa that backs it up from outside."""
        return np.asarray(hoop_strain_at_bore(self.shell, 0.0, 1.0))

    @cached_property
    def strain_behind(self) -> Array:
        """Return the hoop strain of the outermost ring per MPa inside it."""
        return np.asarray(shell_hoop_strain(self.rings[-1], 1.0, self.stiffening))

    @cached_property
    def middle_shell(self) -> Ring:
        """Return the ring the part sits in, with the medians of its draws."""
        return self.shell.middle

    @cached_property
    def middle_rings(self) -> tuple[Ring, ...]:
        """Return the rings with the medians of their draws, everything outside the part's seat as one ring."""
        shell, last = self.shell, self.rings[-1]
        one = shell if shell is last else replace(shell, outer=last.outer)
        return tuple(each.middle for each in (*self.rings[: self.seat + 1], one))

    @cached_property
    def race_share(self) -> float:
        """Return the share of the bore's ovality that the bearing's race is left with."""
        return float(share_of_race(self.middle_rings))

    @cached_property
    def contact_limits(self) -> ContactLimits:
        """Return between which ovalities the part loses contact."""
        return contact_limits(self.middle_rings)

    @cached_property
    def bending_factor(self) -> float:
        """Return the factor of the shell's bending strain for the thickness of its wall."""
        return float(bending_factor(self.middle_shell))


class Around(NamedTuple):
    """What lies around a bore: its rings inside to outside, the thickness of all walls (mm), whether one was assumed.

    `bore` is the bore's diameter in mm; `laminate_behind` tells whether it is metal that is bonded into laminate.
    """

    rings: tuple[Ring, ...]
    bore: float
    whole: Array | float
    assumed: bool
    laminate_behind: bool


def around(candidate: Candidate, case: Case, name: SideName, book: Rulebook) -> Around:
    """Return the bore's own ring, and the shell around an insert, as a candidate meets them."""
    walls, assumed = _walls(candidate, case, name, book)
    bore = middle(candidate.forms[0].mean)
    rings: list[Ring] = []
    inner: Array | float = bore / 2
    for material, wall in walls:
        rings.append(_ring(inner, inner + wall, material_of(material, case, book), "bore_modulus", "bore_expansion"))
        inner = inner + wall
    behind = len(walls) > 1 and book.materials[walls[-1][0]].kind == "laminate"
    return Around(tuple(rings), bore, inner - bore / 2, assumed, behind)


def stack_of(candidate: Candidate, shell: Around, book: Rulebook, length: float) -> Stack:
    """Return the rings of a candidate: bearing, cup if any, and what lies around them."""
    bearing = book.bearings[candidate.part.bearing]
    raceway = float(mean_raceway_diameter(bearing.inner, bearing.outer))
    steel = book.materials["bearing_steel"]
    rings = [_fixed(raceway / 2, bearing.outer / 2, steel)]
    bore, whole = shell.bore, shell.whole
    if candidate.part.kind == "cup":
        cup = book.materials[candidate.material]
        # A cup in a bore as small as its bearing cannot exist; its interference says so, the rings only must not fail.
        outside = max(bore / 2, bearing.outer / 2 + THINNEST)
        rings.append(_ring(bearing.outer / 2, outside, cup, "part_modulus", "part_expansion"))
    seat = len(rings) - 1
    factor = pressure_factor(length, 1, bore / 2 + whole / 2, whole, 1.0, 0.3)
    band = candidate.part.seat_interference if seat else None
    in_cup = None if band is None else even("seat_fit", *band)
    return Stack((*rings, *shell.rings), seat, factor, shell.assumed, bore, shell.laminate_behind, in_cup)


def _walls(
    candidate: Candidate, case: Case, name: SideName, book: Rulebook
) -> tuple[list[tuple[str, Array | float]], bool]:
    """Return the materials and walls around the bore, and whether a wall was assumed."""
    shell, assumed = _wall(case, name, book, "wall")
    material = case.frame.material if case.frame.material != "unknown" else "carbon"
    if candidate.make is not None and candidate.make.wall_left is not None:
        shell = shell - middle(shell) + max(candidate.make.wall_left, 0.1)
    walls: list[tuple[str, Array | float]] = [(material, np.maximum(shell, 0.1))]
    if candidate.remedy == "sleeve" and candidate.make is not None and candidate.make.sleeve is not None:
        walls.insert(0, ("aluminium", candidate.make.sleeve["wall_mm"][0]))
    elif case.frame.insert == "bonded":
        insert, guessed = _wall(case, name, book, "insert_wall")
        walls.insert(0, (candidate.bore_material or "aluminium", np.maximum(insert, 0.1)))
        assumed = assumed or guessed
    return walls, assumed


def _wall(case: Case, name: SideName, book: Rulebook, field: str) -> tuple[Array, bool]:
    size = getattr(getattr(case.sides, name), field) or getattr(case.frame, field)
    if size is None:
        middle = book.limits[f"assumption.{field}"].value
        half = book.limits["assumption.wall_spread"].value
        return np.maximum(normal("wall", middle, half / COVERAGE), 0.5), True
    spread = scalar_spread(size, "wall", case, book)
    return normal("wall", size.value, spread.u), spread.assumed


def _ring(inner: Array | float, outer: Array | float, material: Material, modulus: str, expansion: str) -> Ring:
    return Ring(
        inner,
        outer,
        even(modulus, material.modulus.low, material.modulus.high),
        material.poisson,
        even(expansion, material.expansion.low, material.expansion.high),
    )


def _fixed(inner: float, outer: float, material: Material) -> Ring:
    return Ring(inner, outer, material.modulus.value, material.poisson, material.expansion.value)
