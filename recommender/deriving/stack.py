"""The rings that a pressed part makes with its bearing and the shell, with the doubt of wall and moduli."""

from typing import NamedTuple

import numpy as np

from recommender.bench.case import Case
from recommender.deriving.candidate import Candidate
from recommender.deriving.derived import SideName
from recommender.deriving.draws_of import Array, even, normal
from recommender.deriving.spreads import COVERAGE, scalar_spread
from recommender.mechanics.bearing import mean_raceway_diameter
from recommender.mechanics.rings import Ring
from recommender.mechanics.seat import pressure_factor
from recommender.rulebook.book import Material, Rulebook

THINNEST = 0.1


class Stack(NamedTuple):
    """Rings inside to outside, which interface is between part and bore, and the stiffening of a short seat."""

    rings: tuple[Ring, ...]
    seat: int
    stiffening: Array | float
    wall_assumed: bool

    @property
    def bearing_ring(self) -> Ring:
        """Return the bearing's outer ring."""
        return self.rings[0]

    @property
    def shell(self) -> Ring:
        """Return the ring the part sits in."""
        return self.rings[self.seat + 1]

    def interferences(self, at_seat: Array | float) -> list[Array | float]:
        """Return the interference of every interface when only the part's seat has one."""
        return [at_seat if index == self.seat else 0.0 for index in range(len(self.rings) - 1)]


def stack_of(candidate: Candidate, case: Case, name: SideName, book: Rulebook, length: float) -> Stack:
    """Return the rings of a candidate: bearing, cup if any, the bore's own ring, and the shell around an insert."""
    bearing = book.bearings[candidate.part.bearing]
    raceway = float(mean_raceway_diameter(bearing.inner, bearing.outer))
    steel = book.materials["bearing_steel"]
    rings = [_fixed(raceway / 2, bearing.outer / 2, steel)]
    bore = float(np.median(candidate.forms[0].mean))
    if candidate.part.kind == "cup":
        cup = book.materials[candidate.material]
        # A cup in a bore as small as its bearing cannot exist; its interference says so, the rings only must not fail.
        outside = max(bore / 2, bearing.outer / 2 + THINNEST)
        rings.append(_ring(bearing.outer / 2, outside, cup, "part_modulus", "part_expansion"))
    seat = len(rings) - 1
    walls, assumed = _walls(candidate, case, name, book)
    inner: Array | float = bore / 2
    for material, wall in walls:
        rings.append(_ring(inner, inner + wall, book.materials[material], "bore_modulus", "bore_expansion"))
        inner = inner + wall
    whole = inner - bore / 2
    factor = pressure_factor(length, 1, bore / 2 + whole / 2, whole, 1.0, 0.3)
    return Stack(tuple(rings), seat, factor, assumed)


def _walls(
    candidate: Candidate, case: Case, name: SideName, book: Rulebook
) -> tuple[list[tuple[str, Array | float]], bool]:
    """Return the materials and walls around the bore, and whether a wall was assumed."""
    shell, assumed = _wall(case, name, book, "wall")
    material = case.frame.material if case.frame.material != "unknown" else "carbon"
    if candidate.make is not None and candidate.make.wall_left is not None:
        shell = shell - np.median(shell) + max(candidate.make.wall_left, 0.1)
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
