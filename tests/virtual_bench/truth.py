"""What a frame deserves: the same book on facts computed from the true geometry, without spread.

The case says everything as it is. The bores are not worked out from readings but given, one draw of each that is the
truth; every other doubt (moduli, expansions, clearance within its class) stands in the middle of its range, since that
is what the rules call settled by nothing at a bench. Facts about the evidence say that nothing is wrong with it.
"""

from collections.abc import Iterable, Iterator, Mapping
from contextlib import ExitStack, contextmanager
from typing import Any
from unittest import mock

import numpy as np

from recommender.deciding.decide import Decision, decide
from recommender.deriving import derive as deriving
from recommender.deriving import draws_of
from recommender.deriving.derived import SIDES, Derived, SideName
from recommender.facts.value import FactValue
from recommender.metrology.axis import Axis
from recommender.metrology.draws import Draws
from recommender.metrology.model import posterior
from recommender.metrology.response import Section
from recommender.rulebook.book import Rulebook
from virtual_bench.frames import Bore, Frame
from virtual_bench.habits import Bench, Block
from virtual_bench.reading import RECOMMENDED, Grid, exact_reading, extremes
from virtual_bench.writing import PartShown, loaded, true_text

DRAWS = 2
CERTAIN = 1e12
AGREED: Mapping[str, float | bool] = {
    "evidence.fits_together": 1.0, "evidence.gauges_contradict": False, "evidence.size_doubt": 0.0}


def true_bore(bore: Bore) -> Draws:
    """Return the bore as the derivation takes it, every draw the truth."""
    sizes, seat = bore.shape.sizes(), bore.shape.seat
    all_alike = {key: np.full(DRAWS, value) for key, value in sizes._asdict().items()}
    middle = (all_alike["mouth"] + all_alike["bottom"]) / 2
    axis = Axis(middle, (all_alike["bottom"] - all_alike["mouth"]) / 2, 1.5 * (all_alike["mean"] - middle), seat)
    even = np.full(DRAWS, 1 / DRAWS)
    return Draws(
        axis=axis, loss=all_alike["mean"] - all_alike["inscribed"],
        weights=even, reading_weights=even, effective_count=CERTAIN, **all_alike,
    )  # fmt: skip


def true_parts(frame: Frame) -> list[PartShown]:
    """Return the parts in hand with their true diameters."""
    part = frame.shell["part"]
    return [PartShown(part, name, frame.sides[name].part_od) for name in SIDES] if frame.part_in_hand else []


class Truth:
    """The truth about one frame, worked out once and asked again with other parts in hand."""

    def __init__(self, frame: Frame, book: Rulebook) -> None:
        self.frame, self.book = frame, book
        self.bores = {name: true_bore(frame.sides[name]) for name in SIDES}
        self.bench = _exact_bench(frame)

    def derived(self, extra: Iterable[PartShown] = ()) -> Derived:
        """Return all facts without spread, with further parts in hand if any are given."""
        text = true_text(self.frame, self.bench, [*true_parts(self.frame), *extra], self.book)
        case = loaded(text, f"true-{self.frame.number}.yaml")
        with _known(self.bores):
            return _agreed(deriving.derive(case, self.book))

    def decision(self, extra: Iterable[PartShown] = ()) -> Decision:
        """Return what the book decides on the truth."""
        return decide(self.derived(extra), self.book)


@contextmanager
def _known(bores: Mapping[SideName, Draws]) -> Iterator[None]:
    """Let the derivation meet the given bores instead of what readings say, and every other doubt in its middle."""
    given = iter([bores[name] for name in SIDES])

    def as_known(sheet: Any) -> Any:
        return posterior(sheet.sheet), next(given)

    wide = draws_of.BORE_COLUMNS + len(draws_of.COLUMNS)
    with ExitStack() as stack:
        for target, name, value in (
            (deriving, "_posterior", as_known),
            (draws_of, "scores", lambda: np.zeros((DRAWS, wide))),
            (draws_of, "_ranks", lambda column: np.full(DRAWS, 0.5)),
            (draws_of, "COUNT", DRAWS),
        ):
            stack.enter_context(mock.patch.object(target, name, value))
        yield


def _agreed(derived: Derived) -> Derived:
    sides = {}
    for name, side in derived.sides.items():
        told = {fact: FactValue(fact, word=value) if isinstance(value, bool) else FactValue(fact, value, value, value)
                for fact, value in AGREED.items()}
        sides[name] = side._replace(facts={**side.facts, **told})
    return derived._replace(sides=sides)


def _exact_bench(frame: Frame) -> Bench:
    return Bench(
        20.0, {}, {name: _exact_blocks(frame.sides[name]) for name in SIDES}, dict.fromkeys(SIDES, ()),
        {name: frame.sides[name].part_od for name in SIDES}, {name: frame.sides[name].wall for name in SIDES},
        {name: frame.sides[name].shape.seat for name in SIDES}, frame.insert_wall, frame.offset, frame.angle,
        frame.openings, "", 0,
    )  # fmt: skip


def _exact_blocks(bore: Bore) -> tuple[Block, ...]:
    ids = {"two_point": "two", "three_point": "mic"}
    return tuple(
        Block(ids[grid.sees], grid.turns, {
            float(depth): _exact_row(bore.shape.section(depth), grid) for depth in grid.depths if depth is not None
        }, full_turns=not grid.turns)
        for grid in RECOMMENDED
    )  # fmt: skip


def _exact_row(section: Section, grid: Grid) -> tuple[float, ...]:
    if not grid.turns:
        return extremes(section, grid.sees)
    return tuple(exact_reading(section, grid.sees, turn) for turn in grid.turns)
