"""Work inside a running process: rules, rule files, and the facts of a case."""

from collections.abc import Callable, Iterator
from functools import partial
from itertools import cycle

import numpy as np
import yaml
from ratios import Ratio, in_turn
from rule_workload import General, Ours, holding, make_cases, make_rules

from recommender.bench.load import load_case
from recommender.deriving.derive import derive
from recommender.deriving.draws_of import scores
from recommender.reading.shipped import shipped_cases, shipped_rules
from recommender.rulebook import load as door

CASES = 300
WHOLE = ("proceed/lane-2041", "proceed/acorn-2116", "refuse/gate-2021", "measure_again/barn-2050")


def inside(runs: int) -> Iterator[Ratio]:
    yield from _rules(runs)
    yield _files(runs)
    yield _facts(runs)


def _rules(runs: int) -> Iterator[Ratio]:
    cases = make_cases(CASES)
    few, many = (_ours(count) for count in (120, 480))
    try:
        general = General(make_rules(120))
        assert general.run(cases) == [holding(make_rules(120), case) for case in cases]
    except ImportError:
        print("zen-engine is not installed: the rule stage is not compared with it")  # noqa: T201
    else:
        ours, other = in_turn(few, partial(general.run, cases), runs)
        yield Ratio("rule stage with every leaf marked / general engine, cases/s", CASES / ours, CASES / other,
                    "cases/s", least=1.0)  # fmt: skip
    large, small = in_turn(many, few, runs)
    yield Ratio("480 rules / 120 rules, per case", large / CASES * 1e6, small / CASES * 1e6, "us", most=3.0)


def _ours(count: int) -> Callable[[], object]:
    rules, cases = make_rules(count), make_cases(CASES)
    ours = Ours(rules)
    ready = [ours.ready(case) for case in cases]
    assert [held for _, held in ours.run(ready)] == [holding(rules, case) for case in cases]
    return partial(ours.run, ready)


def _files(runs: int) -> Ratio:
    """Compare reading the shipped rule files into a checked book with parsing their text into bare data."""
    folder = shipped_rules()
    texts = [path.read_bytes() for path in sorted(folder.rglob("*.yaml"))]
    cold, bare = in_turn(
        lambda: door._sealed_book(door._gathered(folder), folder),
        lambda: [yaml.load(text, yaml.CSafeLoader) for text in texts],
        runs,
    )
    return Ratio("rule files: checked book with places / bare YAML data", cold * 1e3, bare * 1e3, "ms", most=2.5)


def _facts(runs: int) -> Ratio:
    """Compare all facts of a case with drawing as many standard normals as both sides are made from."""
    book = door.load()
    loaded = [load_case(shipped_cases() / f"{name}.yaml") for name in WHOLE]
    chance = np.random.default_rng(1)
    turn = cycle(loaded)
    for each in loaded:
        derive(each, book)
    ours, drawn = in_turn(
        lambda: derive(next(turn), book), lambda: chance.standard_normal((2, *scores().shape)), 4 * runs
    )
    return Ratio("all facts of a case / drawing as many normals", ours * 1e3, drawn * 1e3, "ms", most=10.0)
