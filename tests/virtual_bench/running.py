"""Runs frames through the pipeline and keeps one line for each frame: whatever the figures are made from."""

import json
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any

import numpy as np

from recommender.deciding.decide import Decision, decide
from recommender.deciding.runs import Run
from recommender.deriving.derive import derive
from recommender.deriving.derived import SIDES, Derived
from recommender.ground.flaw import Flawed
from recommender.rulebook.book import Rulebook
from virtual_bench.frames import SEED, Frame, frame
from virtual_bench.habits import HABITS, Bench, measured, plug_error
from virtual_bench.judging import clear_cut, deciding, harm, part_harm, shown
from virtual_bench.truth import Truth
from virtual_bench.writing import case_text, loaded

Line = dict[str, Any]
PRACTICES = {"mean_in_limits": "mean reading within limits, then press",
             "go_no_go": "go enters and no-go does not, then press"}


def judged(number: int, habits: Iterable[str], book: Rulebook) -> Line:
    """Return the line of one frame: the truth, what each habit came to, and what the two naive practices would do.

    The recommended plan is always among them, since its intervals tell which frames are clear-cut.
    """
    made = frame(number, book)
    truth = Truth(made, book)
    known = truth.derived()
    true = decide(known, book)
    line: Line = {"frame": number, "kind": made.kind, "drawn_near": made.near, "hidden": made.hidden,
                  "truth": true.frame.verdict, "damage": any(side.damage for side in true.sides.values()),
                  "deserved": [true.sides[name].verdict for name in SIDES], "habits": {}}
    for name in dict.fromkeys(("plan", *habits)):
        line["habits"][name], facts = _habit(made, name, truth, true)
        if name == "plan":
            assert facts is not None, "the plan without a mistake is a case that can be read"
            clear = not _left_open(made) and clear_cut(truth, true, known, facts, shown)
            line["clear_shown"], line["clear_cut"] = clear, clear and clear_cut(truth, true, known, facts, deciding)
    line["practices"] = _practices(made, truth, true, damaged=line["damage"])
    return line


def _left_open(made: Frame) -> bool:
    """Return whether something was not looked at or not tested, so that there is a question whatever was read."""
    return bool(made.missed) or made.insert == "unknown"


def _habit(made: Frame, name: str, truth: Truth, true: Decision) -> tuple[Line, Derived | None]:
    bench = measured(made, name, truth.book)
    told: Line = {"mistake": bench.mistake} if bench.mistake else {}
    told |= {"slips": bench.slips} if bench.slips else {}
    try:
        facts = derive(loaded(case_text(made, bench, truth.book), f"frame-{made.number}.yaml"), truth.book)
    except Flawed as refused:
        return {**told, "verdict": "unreadable", "flaws": sorted({each.check for each in refused.flaws})}, None
    decision = decide(facts, truth.book)
    wrong = harm(decision, truth, true)
    return {
        **told, "verdict": decision.frame.verdict, "sides": [decision.sides[name].verdict for name in SIDES],
        **{key: sorted(each) for key, each in wrong._asdict().items() if each}, "asks": _asks(decision),
    }, facts  # fmt: skip


def _asks(decision: Decision) -> list[str]:
    """Return the rules that keep a frame open, none where it is not."""
    if decision.frame.verdict != "measure_again":
        return []
    runs: list[Run] = [*decision.frame.because, *(run for side in decision.sides.values() for run in side.because
                                                  if side.verdict == "measure_again")]
    return sorted({run.rule.id for run in runs})


def _practices(made: Frame, truth: Truth, true: Decision, *, damaged: bool) -> Mapping[str, Any]:
    """Return for each naive practice whether it presses, and the bars on the part; damage is left to the eye."""
    if damaged:
        return {}
    presses = {"mean_in_limits": _mean_within(measured(made, "plan", truth.book), made), "go_no_go": _go_no_go(made)}
    bars = sorted(part_harm(truth, true)) if any(presses.values()) else []
    return {name: {"presses": each, "barred": bars if each else []} for name, each in presses.items()}


def _mean_within(bench: Bench, made: Frame) -> bool:
    low, high = made.shell["plugs"]
    for name in SIDES:
        values = [value for block in bench.blocks[name] for row in block.rows.values() for value in row]
        if not low <= sum(values) / len(values) <= high:
            return False
    return True


def _go_no_go(made: Frame) -> bool:
    """Return whether on both sides the go gauge goes in all the way and the no-go gauge does not."""
    random = np.random.default_rng([SEED, made.number, len(HABITS) + 1])
    for name in SIDES:
        inscribed = made.sides[name].shape.sizes().inscribed
        go, no_go = (size + plug_error(random) for size in made.shell["plugs"])
        if not go <= inscribed < no_go:
            return False
    return True


def lines_in(store: Path) -> dict[int, Line]:
    """Return the lines kept so far by frame number; a line that was cut off while being written is left out."""
    found: dict[int, Line] = {}
    for text in store.read_text("utf-8").splitlines() if store.exists() else ():
        try:
            line = json.loads(text)
        except json.JSONDecodeError:
            continue
        known = found.get(line["frame"])
        found[line["frame"]] = line if known is None else {**known, "habits": {**known["habits"], **line["habits"]}}
    return found


def missing(numbers: Iterable[int], habits: tuple[str, ...], store: Path) -> Iterator[int]:
    """Yield the frames that the store does not hold with all these habits."""
    known = lines_in(store)
    wanted = {"plan", *habits} & HABITS.keys()
    yield from (number for number in numbers if number not in known or not wanted <= known[number]["habits"].keys())
