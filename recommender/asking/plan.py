"""A plan of readings: enough to settle what a bore is held against, and none that could be left out."""

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from recommender.asking.bench_of import PlannedReading, PlannedTurn, planned_case, planned_sheet
from recommender.asking.demands import Demand, demands, mid_band, unseen
from recommender.asking.simulated import settled_share
from recommender.bench.instruments import Instrument
from recommender.bench.sheets import ENDS, BenchSheet, SheetRow
from recommender.deriving.correction import sees_of
from recommender.deriving.derived import SIDES, SideName
from recommender.deriving.spreads import believed_limit
from recommender.metrology.sheet import Sees, Sheet
from recommender.rulebook.book import Rulebook, Standard

WANTED = 0.95
MOST = 30
FROM_ENDS = 2.0
# A pinch, or a mouth that opens, is often shorter than that.
FROM_FACE = 1.0
TURNS: dict[Sees, tuple[float, ...]] = {"two_point": (0.0, 60.0, 120.0), "three_point": (0.0, 40.0, 80.0)}
# Readings at the second depth stand half a step further on: four or six lobes, which would pass for two or three where
# every depth is read at the same turns, then do not fit together.
BETWEEN: dict[Sees, float] = {"two_point": 30.0, "three_point": 20.0}
FINER = (0.75, 0.5, 0.25, 0.1)
UM = 1e-3


class Plan(NamedTuple):
    """Readings to take on each side of a frame.

    `shares`: for every limit how often a round, parallel bore in the middle is settled by these readings.
    `out_of_reach`: limits that no more than 30 readings with these instruments settle in 95 % of benches, with the
    share reached by 30; `finer`: the error limits (mm) by instrument that would do, None where even a tenth would not.
    `unseen`: what stays open whatever is read, such as ovality without a two-point instrument. `too_coarse`:
    instruments left out because they cannot decide a fit. `full_turns` come on top of the readings: they settle nothing
    of a round bore, but show form of one depth alone, which readings at set turns pass over.
    """

    standard: str
    material: str
    seat_depth: float
    readings: tuple[PlannedReading, ...]
    shares: dict[Demand, float]
    out_of_reach: dict[Demand, float]
    finer: dict[str, float] | None
    unseen: tuple[str, ...]
    too_coarse: tuple[str, ...]
    full_turns: tuple[PlannedTurn, ...] = ()


def plan_for(
    standard: str, material: str, instruments: Sequence[Instrument], book: Rulebook, seat_depth: float = 10.0
) -> Plan:
    """Return the plan for a shell standard, a material and the instruments at hand; the same every time.

    Raises ValueError for a standard, material or kind of instrument the book does not know, and when no instrument can
    decide a fit.
    """
    _known(standard, material, instruments, book)
    fine = tuple(each for each in instruments if book.instruments[each.kind].decides_fit)
    coarse = tuple(each.id for each in instruments if each not in fine)
    fine = tuple(each for each in fine if book.instruments[each.kind].sees != "points")
    if not fine:
        raise ValueError("none of these instruments can decide a fit; add a three-point micrometer or a bore gauge")
    bench = _Bench(book.standards[standard], material, _best(fine, book), book, seat_depth)
    asked = demands(bench.standard, book)
    full = bench.full()
    open_ = unseen(bench.sheet(full), book)
    shares = settled_share(bench.sheet(full), asked)
    reachable = tuple(each for each in asked if shares[each] >= WANTED)
    missed = {each: shares[each] for each in asked if shares[each] < WANTED}
    readings = bench.least(reachable, open_)
    finer = bench.finer(tuple(missed)) if missed else None
    return Plan(standard, material, seat_depth, readings, settled_share(bench.sheet(readings), reachable), missed,
                finer, tuple(sorted(open_)), coarse, bench.full_turns())


def rows_of(plan: Plan, case: str = "") -> BenchSheet:
    """Return the plan as a bench sheet to fill in, both sides."""
    return BenchSheet(case, tuple(row for side in SIDES for row in planned_rows(side, plan.readings, plan.full_turns)))


def planned_rows(
    side: SideName, readings: Iterable[PlannedReading], full_turns: Iterable[PlannedTurn] = ()
) -> Iterator[SheetRow]:
    """Yield the rows of a side to fill in: one for each reading, two for each full turn."""
    yield from (SheetRow(side, each.instrument, each.depth, each.turn) for each in readings)
    yield from (SheetRow(side, each.instrument, each.depth, end) for each in full_turns for end in ENDS)


class _Bench:
    """Tries plans with the instruments of one bench."""

    def __init__(
        self, standard: Standard, material: str, instruments: tuple[Instrument, ...], book: Rulebook, seat_depth: float
    ) -> None:
        self.standard, self.material, self.instruments = standard, material, instruments
        self.book, self.seat_depth = book, seat_depth
        inset = min(FROM_ENDS, seat_depth / 4)
        self.depths = (inset, seat_depth - inset, seat_depth / 2)

    def sheet(self, readings: Sequence[PlannedReading]) -> Sheet:
        """Return the sheet of a plan for a round bore in the middle of its limits."""
        case = planned_case(self.standard.id, self.material, self.instruments, self.seat_depth, readings,
                            mid_band(self.standard))
        return planned_sheet(case, self.book)

    def grown(self) -> Iterator[tuple[PlannedReading, ...]]:
        """Yield ever longer plans: both ends of the seat, then the middle, then everything once more."""
        taken: tuple[PlannedReading, ...] = ()
        while True:
            for depths in (self.depths[:2], self.depths[2:]):
                taken = (*taken, *(PlannedReading(each.id, depth, turn) for each in self.instruments
                                   for depth in depths for turn in self.turns(each, depth)))
                if len(taken) > MOST:
                    return
                yield taken

    def turns(self, instrument: Instrument, depth: float) -> tuple[float, ...]:
        """Return the turns to read at one depth."""
        sees = sees_of(instrument, self.book)
        further = BETWEEN[sees] if depth == self.depths[1] else 0.0
        return tuple(turn + further for turn in TURNS[sees])

    def full(self) -> tuple[PlannedReading, ...]:
        """Return the longest plan."""
        return list(self.grown())[-1]

    def full_turns(self) -> tuple[PlannedTurn, ...]:
        """Return full turns near the face, in the middle and near the end, with the instrument of two contacts."""
        depths = (min(FROM_FACE, self.depths[0]), self.depths[2], self.depths[1])
        return tuple(PlannedTurn(each.id, depth) for each in self.instruments
                     if sees_of(each, self.book) == "two_point" for depth in depths)

    def least(self, asked: tuple[Demand, ...], open_: frozenset[str]) -> tuple[PlannedReading, ...]:
        """Return the first plan that settles what is asked, without the readings it can do without."""
        readings = next(each for each in self.grown() if self.settles(each, asked, open_))
        before = 0
        while before != len(readings):
            before, place = len(readings), len(readings)
            while place := place - 1:
                shorter = (*readings[:place], *readings[place + 1:])
                readings = shorter if self.settles(shorter, asked, open_) else readings
        return tuple(sorted(readings, key=self._order))

    def settles(
        self, readings: tuple[PlannedReading, ...], asked: tuple[Demand, ...], open_: frozenset[str]
    ) -> bool:
        """Return whether nothing stays open but what always does, and everything asked is met often enough."""
        sheet = self.sheet(readings)
        return unseen(sheet, self.book) <= open_ and all(
            share >= WANTED for share in settled_share(sheet, asked).values())

    def finer(self, asked: tuple[Demand, ...]) -> dict[str, float] | None:
        """Return error limits of the same instruments that would settle what is out of reach, the coarsest tried."""
        for share in FINER:
            better = tuple(each.model_copy(update={"error_limit": believed_limit(each, self.book) * share})
                           for each in self.instruments)
            bench = _Bench(self.standard, self.material, better, self.book, self.seat_depth)
            if all(each >= WANTED for each in settled_share(bench.sheet(bench.full()), asked).values()):
                return {each.id: believed_limit(each, self.book) for each in better}
        return None

    def _order(self, reading: PlannedReading) -> tuple[int, float, float]:
        ids = [each.id for each in self.instruments]
        return ids.index(reading.instrument), reading.depth, reading.turn


def _best(instruments: tuple[Instrument, ...], book: Rulebook) -> tuple[Instrument, ...]:
    """Return the finest instrument of each kind of contact, three-point first."""
    found = []
    for sees in ("three_point", "two_point"):
        alike = [each for each in instruments if sees_of(each, book) == sees]
        found += sorted(alike, key=lambda each: (_doubt(each, book), each.id))[:1]
    return tuple(found)


def _doubt(instrument: Instrument, book: Rulebook) -> float:
    return believed_limit(instrument, book) + book.instruments[instrument.kind].repeatability


def _known(standard: str, material: str, instruments: Sequence[Instrument], book: Rulebook) -> None:
    if standard not in book.standards:
        raise ValueError(f"the rule book knows no shell standard `{standard}`")
    if material not in book.materials:
        raise ValueError(f"the rule book knows no material `{material}`")
    for each in instruments:
        if each.kind not in book.instruments:
            raise ValueError(f"the rule book knows no instrument `{each.kind}`")
