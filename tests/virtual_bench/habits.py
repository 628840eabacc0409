"""What the bench writes down of a frame, by habit: which readings, with which errors, and which mistakes."""

from typing import Any, NamedTuple

import numpy as np

from recommender.deriving.derived import SIDES, SideName
from recommender.deriving.part_in_hand import expansion_of
from recommender.metrology.sheet import Sees
from recommender.rulebook.book import Range, Rulebook
from virtual_bench.frames import SEED, Bore, Frame, population
from virtual_bench.reading import RECOMMENDED, THREE_TURNS, Grid, displayed, exact_reading, extremes
from virtual_bench.shape import Shape

UM = 1e-3
INCH = 25.4
ONE_TURN = (Grid("three_point", (0,), (2, 5, 8)),)
KINDS: dict[Sees, str] = {"two_point": "two_point_gauge", "three_point": "three_point_micrometer"}
SEES: dict[str, Sees] = {kind: sees for sees, kind in KINDS.items()}
IDS = {"two_point_gauge": "two", "three_point_micrometer": "mic", "calliper": "cal"}


class Habit(NamedTuple):
    """One way of going about it: the grids read (none: one calliper reading), plugs tried, a mistake made."""

    title: str
    grids: tuple[Grid, ...]
    plugs: bool = False
    mistaken: bool = False


HABITS = {
    "plan": Habit("the recommended plan", RECOMMENDED),
    "plan_and_plugs": Habit("the plan, and plug gauges", RECOMMENDED, plugs=True),
    "three_turns": Habit("three-point, three turns", THREE_TURNS),
    "one_turn": Habit("three-point, one turn", ONE_TURN),
    "calliper": Habit("one calliper reading", ()),
    "mistaken": Habit("the plan, with a mistake", RECOMMENDED, mistaken=True),
}


class Block(NamedTuple):
    """What one instrument read in one bore: values by depth and turn, or the extremes of a full turn by depth.

    Without turns and not `full_turns` it is one loose reading.
    """

    instrument: str
    turns: tuple[float, ...]
    rows: dict[float, tuple[float, ...]]
    full_turns: bool = False


class Plug(NamedTuple):
    """What a plug gauge did: its nominal size, its measured one, and how deep it went (mm), None where not at all."""

    kind: str
    size: float
    measured: float
    depth: float | None
    fully: bool


class Ring(NamedTuple):
    """Setting ring: its size as certified, and what was read on it before and after."""

    size: float
    before: float
    after: float


class Bench(NamedTuple):
    """Everything a case file holds that was measured or seen, as it was written down."""

    temperature: float
    rings: dict[str, Ring]
    blocks: dict[SideName, tuple[Block, ...]]
    plugs: dict[SideName, tuple[Plug, ...]]
    parts: dict[SideName, float]
    walls: dict[SideName, float]
    seats: dict[SideName, float]
    insert_wall: float
    offset: float
    angle: float
    openings: tuple[dict[str, Any], ...]
    mistake: str
    slips: int


def measured(frame: Frame, name: str, book: Rulebook) -> Bench:
    """Return what a habit writes of a frame; the errors belong to this frame and habit."""
    order = list(HABITS).index(name)
    return _Measurer(frame, HABITS[name], book, np.random.default_rng([SEED, frame.number, order + 1])).bench()


class _Measurer:
    """Measures one frame once."""

    def __init__(self, frame: Frame, habit: Habit, book: Rulebook, random: np.random.Generator) -> None:
        self.frame, self.habit, self.book, self.random = frame, habit, book, random
        self.told = population()["bench"]
        self.warm = float(np.clip(random.normal() * self.told["temperature_sd_k"], -3.0, 3.0))
        self.apart = random.normal() * self.told["instrument_apart_sd_k"]
        self.grows = self._drawn(book.materials[frame.bore_material].expansion)
        self.steel = self._drawn(book.materials["steel"].expansion)
        self.rings: dict[str, Ring] = {}
        self.slips = 0

    def bench(self) -> Bench:
        blocks = dict.fromkeys(SIDES, ()) | self._blocks()
        bench = Bench(
            round(20 + self.warm + self.random.normal() * self.told["thermometer_sd_k"], 1),
            self.rings, blocks, {name: self._plugs(self.frame.sides[name]) for name in SIDES},
            {name: self._part(self.frame.sides[name]) for name in SIDES},
            {name: self._about(self.frame.sides[name].wall, self.told["wall_sd_mm"], 2) for name in SIDES},
            {name: self._about(self.frame.sides[name].shape.seat, 0.1, 1) for name in SIDES},
            self._about(self.frame.insert_wall, self.told["wall_sd_mm"], 2),
            abs(self._about(self.frame.offset, 0.01, 2)), abs(self._about(self.frame.angle, 2.5, 0)),
            tuple(self._opening(each) for each in self.frame.openings), "", self.slips,
        )  # fmt: skip
        return self._mistaken(bench) if self.habit.mistaken else bench

    def _blocks(self) -> dict[SideName, tuple[Block, ...]]:
        if not self.habit.grids:
            error = self._met("calliper")
            return {name: (self._loose(self.frame.sides[name].shape, error),) for name in SIDES}
        made: dict[SideName, list[Block]] = {name: [] for name in SIDES}
        errors = {kind: self._met(kind) for kind in dict.fromkeys(KINDS[grid.sees] for grid in self.habit.grids)}
        for grid in self.habit.grids:
            for name in SIDES:
                made[name].append(self._grid(self.frame.sides[name].shape, grid, errors[KINDS[grid.sees]]))
        return {name: tuple(each) for name, each in made.items()}

    def _met(self, kind: str) -> float:
        """Return the error all readings of an instrument share, and write down what its ring showed."""
        limit = self.book.instruments[kind].error_limit
        error = self.random.uniform(-limit, limit)
        if kind == "calliper":
            return float(error)
        size = float(round(self.book.parts[self.frame.shell["part"]].nominal))
        zero, drift = (self.random.normal() * self.told[key] * UM for key in ("zero_sd_um", "drift_sd_um"))
        ring = self.random.normal() * self.book.spreads["ring"].value / 1.96
        self.rings[IDS[kind]] = Ring(size, round(size + ring + zero, 3), round(size + ring + zero + drift, 3))
        return float(error + zero + drift / 2)

    def _grid(self, shape: Shape, grid: Grid, error: float) -> Block:
        kind = KINDS[grid.sees]
        rows = {}
        for depth in grid.depths:
            assert depth is not None, "every habit writes down its depths"
            rows[float(depth)] = (
                tuple(self._reading(shape, kind, depth, turn, error) for turn in grid.turns) if grid.turns
                else self._full_turn(shape, kind, depth, error)
            )
        return Block(IDS[kind], grid.turns, rows, full_turns=not grid.turns)

    def _reading(self, shape: Shape, kind: str, depth: float, turn: float, error: float) -> float:
        section = shape.section(self._depth(shape, depth))
        return self._read(exact_reading(section, SEES[kind], turn + self.random.normal() * self.told["turn_sd_deg"]),
                          kind, error)

    def _full_turn(self, shape: Shape, kind: str, depth: float, error: float) -> tuple[float, ...]:
        """Return the smallest and the largest met while turning, each read once where the gauge turns back."""
        met = extremes(shape.section(self._depth(shape, depth)), SEES[kind])
        return tuple(sorted(self._read(exact, kind, error) for exact in met))

    def _depth(self, shape: Shape, depth: float) -> float:
        return float(np.clip(depth + self.random.normal() * self.told["depth_sd_mm"], 0, shape.seat))

    def _read(self, exact: float, kind: str, error: float) -> float:
        slip = self.random.uniform(*self.told["slip"]["size_um"]) * UM if self._chance("slip") else 0.0
        self.slips += slip > 0
        return round(displayed(self._warmed(exact) + error + slip, self.book.instruments[kind], self.random), 4)

    def _loose(self, shape: Shape, error: float) -> Block:
        exact = exact_reading(shape.section(self.random.uniform(1, 4)), "two_point", self.random.uniform(0, 180))
        value = displayed(self._warmed(exact) + error, self.book.instruments["calliper"], self.random)
        return Block("cal", (), {0.0: (round(value, 3),)})

    def _warmed(self, size: float) -> float:
        """Return what a steel instrument makes of a size at 20 C when bore and instrument are as warm as they are."""
        return float(size * (1 + self.grows * self.warm - self.steel * (self.warm + self.apart)))

    def _part(self, bore: Bore) -> float:
        part = self.book.parts[self.frame.shell["part"]]
        grows = expansion_of(part, part.material, bore.part_od, self.book)
        rate = grows.value + self.random.uniform(-1, 1) * grows.half
        warmed = bore.part_od * (1 + rate * self.warm - self.steel * (self.warm + self.apart))
        return self._about(warmed, self.told["part_sd_um"] * UM, 3)

    def _plugs(self, bore: Bore) -> tuple[Plug, ...]:
        return tuple(self._plug(kind, size, bore) for kind, size in
                     zip(("go", "no_go"), self.frame.shell["plugs"], strict=True)) if self.habit.plugs else ()

    def _plug(self, kind: str, size: float, bore: Bore) -> Plug:
        true = size + plug_error(self.random)
        went = bore.shape.enters_to(true)
        fully = went >= bore.shape.seat
        return Plug(kind, size, round(true + self.random.normal() * 0.5 * UM, 3), went if went > 0.3 else None, fully)

    def _opening(self, true: dict[str, Any]) -> dict[str, Any]:
        found = {key: max(0.0, self._about(true[key], 0.2, 1)) for key in ("ligament", "seat_distance")}
        return {**true, **found, "size": self._about(true["size"], 0.1, 1)}

    def _mistaken(self, bench: Bench) -> Bench:
        kinds = population()["mistakes"]
        mistake = str(kinds[self.random.integers(len(kinds))])
        if mistake == "swapped_sides":
            swapped = {"drive": bench.blocks["non_drive"], "non_drive": bench.blocks["drive"]}
            return bench._replace(blocks=swapped, mistake=mistake)
        name = SIDES[self.random.integers(2)]
        blocks = list(bench.blocks[name])
        index = int(self.random.integers(len(blocks)))
        blocks[index] = _inches(blocks[index]) if mistake == "wrong_unit" else self._transposed(blocks[index])
        return bench._replace(blocks={**bench.blocks, name: tuple(blocks)}, mistake=mistake)

    def _transposed(self, block: Block) -> Block:
        """Return the block with two neighbouring digits of one reading changed over, decimals only."""
        depth = list(block.rows)[self.random.integers(len(block.rows))]
        row = list(block.rows[depth])
        column = int(self.random.integers(len(row)))
        text = f"{row[column]:.3f}"
        places = [at for at in (3, 4) if text[at] != text[at + 1]]
        if not places:
            return block
        at = places[int(self.random.integers(len(places)))]
        row[column] = float(text[:at] + text[at + 1] + text[at] + text[at + 2:])
        return block._replace(rows={**block.rows, depth: tuple(row)})

    def _chance(self, key: str) -> bool:
        return bool(self.random.random() < self.told[key]["share"])

    def _about(self, value: float, sd: float, places: int) -> float:
        return round(float(value + self.random.normal() * sd), places) + 0.0

    def _drawn(self, span: Range) -> float:
        return float(self.random.uniform(span.low, span.high))


def plug_error(random: np.random.Generator) -> float:
    """Return how much larger than its mark a plug gauge is (mm)."""
    return float(random.normal() * population()["bench"]["plug_sd_um"] * UM)


def _inches(block: Block) -> Block:
    """Return the block as a gauge switched to inches shows it."""
    return block._replace(rows={depth: tuple(round(each / INCH, 5) for each in row)
                                for depth, row in block.rows.items()})
