"""How often the stated 95 % intervals hold the true bore, and how wide they are, for each way of reading it.

    python tests/benchmarks/coverage.py            runs the study, prints the table and compares it with the kept one
    python tests/benchmarks/coverage.py --keep     the same, and keeps the new table

Bores are drawn from the population the assumption limits of the shipped rules describe (normal lobe components, taper
and bow), read with exact geometry (equilateral contact triangle of a self-centring head; chord through the centre) and
with errors as the shipped instrument data state them: a normal error and a rounding step for every reading, an error
limit (rectangular), a setting ring and a temperature error shared by all readings of an instrument.
"""

import json
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np

from recommender.bench.instruments import Instrument
from recommender.deriving.draws_of import bore_scores
from recommender.deriving.sheet import assumptions
from recommender.deriving.spreads import COVERAGE, instrument_spread
from recommender.metrology.draws import draw
from recommender.metrology.model import posterior
from recommender.metrology.sheet import Assumptions, Reading, Sees, Sheet, Span
from recommender.metrology.summary import summarise
from recommender.rulebook.book import Rulebook
from recommender.rulebook.load import load

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from virtual_bench.reading import RECOMMENDED, THREE_TURNS, Grid, displayed, exact_reading, extremes
from virtual_bench.shape import Lobe, Shape

KEPT = Path(__file__).with_name("coverage.json")
SEED, BORES = 20261125, 2000
SEAT, NOMINAL = 10.0, 46.0
KINDS = {"two_point": "two_point_gauge", "three_point": "three_point_micrometer"}
FIELDS = ("mean", "inscribed", "widest", "ovality", "taper")
LEAST, LEAST_WORSE, MOST = 0.93, 0.92, 0.99


class Plan(NamedTuple):
    """One way of reading a bore."""

    grids: tuple[Grid, ...]
    turns_recorded: bool = True


PLANS: Mapping[str, Plan] = {
    "recommended": Plan(RECOMMENDED),
    "three-point only": Plan(THREE_TURNS),
    "two-point only": Plan((Grid("two_point", (0, 60, 120), (2, 5, 8)),)),
    "two turns": Plan((Grid("three_point", (0, 60), (2, 5, 8)), Grid("two_point", (0, 90), (2, 8)))),
    "no turns recorded": Plan((Grid("three_point", (), (2, 5, 8)), Grid("two_point", (), (2, 8))), False),
    "range only": Plan((Grid("three_point", (), (None,)), Grid("two_point", (), (None,))), False),
}


def bore_of(random: np.random.Generator, assumed: Assumptions, worse: float) -> Shape:
    """Return a bore with lobes, taper and bow, its form `worse` times what is assumed."""
    middle = NOMINAL + random.normal() * 0.02
    taper, bow = worse * random.normal() * assumed.taper_sd, worse * random.normal() * assumed.curvature_sd
    deviations = {2: assumed.ovality_sd, 3: assumed.lobing_sd, 5: assumed.five_lobe_sd}
    lobes = [Lobe(n, worse * random.rayleigh(sd) / 2, random.uniform(0, 360)) for n, sd in deviations.items()]
    return Shape(SEAT, middle, taper, bow, tuple(lobes))


def truth_of(bore: Shape) -> dict[str, float]:
    """Return what there is to know of a bore."""
    sizes = bore.sizes()
    return {**sizes._asdict(), "taper": abs(sizes.taper)}


class Tool:
    """One instrument as the shipped data describe it, with the errors it happens to have on one bench."""

    def __init__(self, kind: str, sees: Sees, book: Rulebook, temperature: tuple[float, float]) -> None:
        """`temperature` is the standard uncertainty of the correction and the error made, mm, shared by all."""
        self.kind, self.sees = kind, sees
        self.data = book.instruments[kind]
        spread = instrument_spread(Instrument.model_validate({"id": kind, "kind": kind}), book)
        self.u, self.ring_u = spread.own, book.spreads["ring"].value / COVERAGE
        self.warm_u, self.warm = temperature
        self.shared = (
            (f"instrument {kind}", spread.shared), (f"ring {kind}", self.ring_u), ("temperature", self.warm_u))

    def met(self, random: np.random.Generator) -> float:
        """Return the error that all its readings on one bench share."""
        limit = self.data.error_limit
        return random.uniform(-limit, limit) + random.normal() * self.ring_u + self.warm

    def read(self, exact: float, shared: float, random: np.random.Generator) -> float:
        """Return what its display shows."""
        return displayed(exact + shared, self.data, random)


def sheet_of(bore: Shape, plan: Plan, book: Rulebook, random: np.random.Generator) -> Sheet:
    """Return the sheet a bench writes of a bore."""
    warm_u = NOMINAL * 12e-6 * 0.5
    warm = (warm_u, random.normal() * warm_u)
    readings: list[Reading] = []
    spans: list[Span] = []
    tools = {sees: Tool(KINDS[sees], sees, book, warm) for sees in dict.fromkeys(grid.sees for grid in plan.grids)}
    errors = {sees: tool.met(random) for sees, tool in tools.items()}
    for grid in plan.grids:
        tool, error, kind = tools[grid.sees], errors[grid.sees], KINDS[grid.sees]
        for depth in grid.depths:
            section = bore.section(random.uniform(0, SEAT) if depth is None else depth)
            readings += [
                Reading(tool.read(exact_reading(section, grid.sees, turn), error, random), kind, grid.sees, depth, turn,
                        tool.u, tool.shared)
                for turn in grid.turns
            ]
            if not grid.turns:
                ends = sorted(tool.read(value, error, random) for value in extremes(section, grid.sees))
                spans.append(Span(ends[0], ends[1], kind, grid.sees, depth, tool.u, tool.shared))
    return Sheet(tuple(readings), tuple(spans), (), SEAT, assumptions(book))


class Held(NamedTuple):
    """Whether the interval held the truth, and its width in um."""

    held: bool
    width: float


def judged(sheet: Sheet, truth: Mapping[str, float], shrink: float = 1.0) -> dict[str, Held]:
    """Return for every field whether its 95 % interval, shrunk about its middle, holds the truth."""
    made = draw(posterior(sheet), sheet, bore_scores())
    found = {}
    for field in FIELDS:
        values = getattr(made, field)
        interval = summarise(np.abs(values) if field == "taper" else values, made.weights, made.effective_count)
        middle, half = (interval.low + interval.high) / 2, shrink * (interval.high - interval.low) / 2
        found[field] = Held(abs(truth[field] - middle) <= half, 2000 * half)
    return found


def study(
    bores: int, worse: float, plans: Mapping[str, Plan], book: Rulebook, shrink: float = 1.0
) -> dict[str, dict[str, list[Held]]]:
    """Return what became of every interval, by plan and field; the same bores for every plan."""
    random = np.random.default_rng(SEED)
    kept: dict[str, dict[str, list[Held]]] = {name: {field: [] for field in FIELDS} for name in plans}
    for _ in range(bores):
        bore = bore_of(random, assumptions(book), worse)
        truth = truth_of(bore)
        for name, plan in plans.items():
            for field, held in judged(sheet_of(bore, plan, book, random), truth, shrink).items():
                kept[name][field].append(held)
    return kept


def table(found: Mapping[str, Mapping[str, list[Held]]]) -> dict[str, dict[str, dict[str, float]]]:
    """Return share held and median width (um) by plan and field."""
    return {
        name: {
            field: {
                "held": round(float(np.mean([each.held for each in all_held])), 4),
                "width_um": round(float(np.median([each.width for each in all_held])), 1),
            }
            for field, all_held in by_field.items()
        }
        for name, by_field in found.items()
    }


def misses(made: Mapping[str, Any], plans: Mapping[str, Plan], least: float) -> Iterator[str]:
    """Yield every share outside what is promised: too few held, or too many where turns were recorded."""
    for name, by_field in made.items():
        for field, each in by_field.items():
            if each["held"] < least or (plans[name].turns_recorded and each["held"] > MOST):
                yield f"{name}: {field} held in {each['held']:.2%}"


def main(arguments: list[str]) -> int:
    """Run the study, print and compare, keep on demand; 0 when everything promised was met."""
    book = load()
    worse_plans = {"recommended": PLANS["recommended"]}
    made = {"as assumed": table(study(BORES, 1.0, PLANS, book)),
            "twice as bad": table(study(BORES, 2.0, worse_plans, book))}
    sys.stdout.write("\n".join(shown(made)) + "\n\n")
    wrong = [*misses(made["as assumed"], PLANS, LEAST), *misses(made["twice as bad"], worse_plans, LEAST_WORSE)]
    wrong += [] if "--keep" in arguments or not KEPT.exists() else list(grown(made, json.loads(KEPT.read_text())))
    sys.stdout.write(("\n".join(wrong) if wrong else "Everything promised was met.") + "\n")
    if "--keep" in arguments:
        KEPT.write_text(json.dumps(made, indent=1) + "\n")
    return 1 if wrong else 0


def shown(made: Mapping[str, Any]) -> Iterator[str]:
    """Yield the lines of the table."""
    for title, part in made.items():
        yield f"\n{title}: share held, median width in um ({BORES} bores)"
        yield f"{'':20}" + "".join(f"{field:>18}" for field in FIELDS)
        for name, by_field in part.items():
            yield f"{name:20}" + "".join(f"{e['held']:>10.1%}{e['width_um']:>8.1f}" for e in by_field.values())


def grown(made: Mapping[str, Any], kept: Mapping[str, Any]) -> Iterator[str]:
    """Yield every median width that grew by more than a tenth of a micrometre against the kept table."""
    for title, part in made.items():
        for name, by_field in part.items():
            for field, each in by_field.items():
                before = kept[title][name][field]["width_um"]
                if each["width_um"] > before + 0.1:
                    yield f"{title}, {name}: {field} grew from {before} to {each['width_um']} um"


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
