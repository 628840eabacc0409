"""Draws frames of the population: what each truly is, and what its owner and the shop have of it."""

from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path
from typing import Any

import numpy as np

from recommender.deriving.derived import SIDES, SideName
from recommender.deriving.parts import fit_class_of
from recommender.reading.yaml_reader import read_file
from recommender.rulebook.book import Rulebook
from virtual_bench.shape import Bell, Lobe, Pinch, Shape

SEED = 20261126
POPULATION = Path(__file__).with_name("population.yaml")
UM = 1e-3
FORMS = ("bell_mouth", "pinch", "many_lobes", "twisted_oval")
TARGETS = ("too_loose", "too_tight", "ovality", "lobing", "taper")
GATE = {"ovality": "form.ovality_gate", "lobing": "form.lobing_gate", "taper": "form.taper_gate"}


@dataclass(frozen=True)
class Bore:
    """One side as it truly is: its shape, wall, and the diameter of the part that lies ready for it."""

    shape: Shape
    wall: float
    part_od: float


@dataclass(frozen=True)
class Frame:
    """One frame as it truly is. `near` and `hidden` tell what it was drawn for, never what it is judged by."""

    number: int
    kind: str
    shell: dict[str, Any]
    sides: dict[SideName, Bore]
    part_in_hand: bool
    near: str
    hidden: str
    offset: float
    angle: float
    aligned_known: bool
    openings: tuple[dict[str, Any], ...]
    insert: str
    insert_wall: float
    sign: str
    missed: str
    odds: dict[str, float] = field(default_factory=dict)

    @property
    def bore_material(self) -> str:
        """Return what the bores are made of."""
        return "aluminium" if self.insert else str(self.shell["material"])


@lru_cache(maxsize=1)
def population() -> dict[str, Any]:
    """Return the population file."""
    data: dict[str, Any] = read_file(POPULATION).data
    return data


def frame(number: int, book: Rulebook) -> Frame:
    """Return the frame of a number, always the same one."""
    return _Drawer(np.random.default_rng([SEED, number]), book).frame(number)


class _Drawer:
    """Draws one frame; the order of the draws is part of what a number means."""

    def __init__(self, random: np.random.Generator, book: Rulebook) -> None:
        self.random, self.book, self.all = random, book, population()

    def frame(self, number: int) -> Frame:
        kind = self._kind()
        self.shell = self.all["shells"][kind]
        insert = self._insert()
        self.bore_material = "aluminium" if insert else self.shell["material"]
        near = TARGETS[self.random.integers(len(TARGETS))] if self._chance(self.all["near"]["share"]) else ""
        hidden = FORMS[self.random.integers(len(FORMS))] if self._chance(self.all["hidden"]["share"]) else ""
        base, target = self._interference(), SIDES[self.random.integers(2)]
        sides = {name: self._bore(base, near if name == target else "", hidden if name == target else "", bool(near))
                 for name in SIDES}
        lines = self.all["alignment"]
        sign, missed = self._damage()
        return Frame(
            number, kind, self.shell, sides, self._chance(self.all["parts"]["in_hand"]), near, hidden,
            abs(self.random.normal()) * lines["offset_sd"], abs(self.random.normal()) * lines["angle_sd_arcmin"],
            not self._chance(lines["not_measured"]), self._openings(), insert,
            self._about(self.all["insert"]["wall"]), sign, missed,
        )  # fmt: skip

    def _kind(self) -> str:
        names = list(self.all["shells"])
        shares = np.array([self.all["shells"][each]["share"] for each in names])
        return str(names[self.random.choice(len(names), p=shares / shares.sum())])

    def _insert(self) -> str:
        told = self.all["insert"]
        if self.shell["material"] != "carbon" or not self._chance(told["share_of_carbon"]):
            return ""
        if self._chance(told["moves"]):
            return "moved"
        return "unknown" if self._chance(told["untested"]) else "firm"

    def _bars(self) -> dict[str, float]:
        part = self.book.parts[self.shell["part"]]
        found = fit_class_of(part, part.material, self.bore_material, self.book)
        assert found is not None, "every shell of the population has a fit class"
        return {which: self.book.limits[limit].value * UM for which, limit in found.limits.items()}

    def _interference(self) -> float:
        told, bars = self.all["fit"], self._bars()
        if self._chance(told["usual_share"]):
            middle, half = (bars["aim_low"] + bars["aim_high"]) / 2, (bars["aim_high"] - bars["aim_low"]) / 2
            return float(middle + self.random.normal() * told["usual_sd"] * half)
        low, high = bars["bar_low"] - told["wide_under"] * UM, bars["bar_high"] + told["wide_over"] * UM
        return float(self.random.uniform(low, high))

    def _bore(self, interference: float, near: str, hidden: str, calm: bool) -> Bore:
        """Return one side; in a frame drawn for one limit (`calm`) everything else lies in the middle of the aim."""
        part_od = self.random.uniform(*self.shell["od"])
        shape = self._shape(hidden)
        if near in GATE:
            shape = self._at_gate(shape, near)
        bars, close = self._bars(), self.all["near"]
        wanted = interference + self.random.normal() * self.all["fit"]["sides_differ_sd"] * UM
        if calm:
            wanted = (bars["aim_low"] + bars["aim_high"]) / 2 + self.random.normal() * 2 * UM
        size = shape.sizes()
        if near == "too_loose":
            wanted = bars["bar_low"] + self.random.uniform(-1, 1) * close["mean_fit"] * UM
        if near == "too_tight":
            tightest = bars["bar_high"] + self.random.uniform(-1, 1) * close["tight_fit"] * UM
            wanted = tightest - (size.mean - size.inscribed)
        moved = part_od - wanted - size.mean
        return Bore(_moved(shape, moved), max(1.0, self._about(self.shell["wall"])), float(part_od))

    def _shape(self, hidden: str) -> Shape:
        told, rounder = self.all["form"], 1.0 if self.bore_material == "carbon" else self.all["form"]["metal"]
        depths = self.all["seat_depth"]
        direct = self.book.parts[self.shell["part"]].kind == "bearing"
        seat = depths["direct" if direct else "cup"] + self.random.normal() * depths["sd"]
        # Diameter amplitude is twice the radius amplitude.
        lobes = tuple(
            Lobe(int(number), rounder * self.random.rayleigh(sd) * UM / 2, self.random.uniform(0, 360))
            for number, sd in told["lobes"].items()
        )
        plain = Shape(
            float(seat), 0.0, self.random.normal() * told["taper_um_per_mm"] * UM,
            self.random.normal() * told["bow"] * UM, lobes,
        )  # fmt: skip
        made = Shape(plain.seat, self.shell["plugs"][0], plain.taper, plain.bow, plain.lobes)
        return made if not hidden else self._hidden(made, hidden)

    def _hidden(self, shape: Shape, hidden: str) -> Shape:
        told = self.all["hidden"][hidden]
        turn = self.random.uniform(0, 360)
        if hidden == "bell_mouth":
            return _with(shape, bell=Bell(self._range(told["height"]) * UM, self._range(told["reach_mm"])))
        if hidden == "pinch":
            bump = Pinch(self._range(told["height"]) * UM, turn, self.random.uniform(0, shape.seat),
                         self._range(told["spread_deg"]), self._range(told["length_mm"]))
            return _with(shape, pinch=bump)
        amplitude = self._range(told["diameter_amplitude"]) * UM / 2
        if hidden == "many_lobes":
            number = int(told["numbers"][self.random.integers(len(told["numbers"]))])
            return _with(shape, lobes=(*_without(shape, number), Lobe(number, amplitude, turn)))
        return _with(shape, lobes=(*_without(shape, 2), Lobe(2, amplitude, turn, self._range(told["twist_deg"]))))

    def _at_gate(self, shape: Shape, near: str) -> Shape:
        """Return the shape with one form set close to its gate: 4 amplitudes on radius are the swing of readings."""
        wanted = (self.book.limits[GATE[near]].value + self.random.uniform(-1, 1) * self.all["near"][near]) * UM
        if near == "taper":
            return _with(shape, taper=wanted / shape.seat * (1 if self.random.random() < 0.5 else -1))
        number = 2 if near == "ovality" else 3
        return _with(shape, lobes=(*_without(shape, number), Lobe(number, wanted / 4, self.random.uniform(0, 360))))

    def _openings(self) -> tuple[dict[str, Any], ...]:
        told = self.all["openings"]
        if not self._chance(told["share"]):
            return ()
        place = {key: self._range(told[key]) for key in ("size", "ligament", "seat_distance")}
        return ({"kind": "port", "side": SIDES[self.random.integers(2)], **place},)

    def _damage(self) -> tuple[str, str]:
        told = self.all["damage"]
        signs = told["signs"] if self.shell["material"] == "carbon" else ["crack", "lacquer_scratch", "paint_bubbles"]
        sign = str(signs[self.random.integers(len(signs))]) if self._chance(told["share"]) else ""
        return sign, "shell_outside" if self._chance(told["place_missed"]) else ""

    def _chance(self, share: float) -> bool:
        return bool(self.random.random() < share)

    def _range(self, ends: list[float]) -> float:
        return float(self.random.uniform(*ends))

    def _about(self, given: list[float]) -> float:
        return float(given[0] + self.random.normal() * given[1])


def _with(shape: Shape, **change: Any) -> Shape:
    return Shape(**{**shape.__dict__, **change})


def _moved(shape: Shape, by: float) -> Shape:
    return _with(shape, middle=shape.middle + by)


def _without(shape: Shape, number: int) -> tuple[Lobe, ...]:
    return tuple(lobe for lobe in shape.lobes if lobe.number != number)
