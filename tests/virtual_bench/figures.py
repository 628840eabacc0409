"""Counts how often each habit, and each naive practice, was wrong; every share with its exact 95 % interval."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any, NamedTuple

from scipy.stats import binomtest

from virtual_bench.habits import HABITS
from virtual_bench.running import PRACTICES, Line

CONTRADICTIONS = frozenset({"evidence.readings-disagree", "evidence.gauge-contradicts",
                            "evidence.bore-of-another-size", "evidence.ring-drifted"})
ALL, NEAR = "all", "near"
Met = Mapping[str, Any]


class Share(NamedTuple):
    """How many of how many."""

    count: int
    of: int

    @property
    def value(self) -> float:
        """Return the share itself, 0 of nothing."""
        return self.count / self.of if self.of else 0.0

    def interval(self) -> tuple[float, float]:
        """Return its exact 95 % interval (Clopper and Pearson, Biometrika 26, 1934)."""
        if not self.of:
            return (0.0, 1.0)
        found = binomtest(self.count, self.of).proportion_ci(0.95, method="exact")
        return float(found.low), float(found.high)


def figures(lines: Iterable[Line]) -> dict[str, dict[str, list[int]]]:
    """Return every figure as count and number of frames, by habit or practice; what is kept in the repository."""
    kept = list(lines)
    made = {name: _of_habit(name, [line for line in kept if name in line["habits"]]) for name in HABITS}
    made |= {name: _of_practice(name, [line for line in kept if name in line["practices"]]) for name in PRACTICES}
    made["truth"] = {
        "near": _share(kept, near), "hidden": _share(kept, lambda line: line["hidden"]),
        "proceed": _share(kept, lambda line: line["truth"] == "proceed"),
    }  # fmt: skip
    return made


def near(line: Line) -> bool:
    """Return whether a frame lies within the 95 % interval of the plan of a limit, the narrower of the two."""
    return not line["clear_shown"]


def _of_habit(name: str, lines: list[Line]) -> dict[str, list[int]]:
    close, hidden = [line for line in lines if near(line)], [line for line in lines if line["hidden"]]

    def met(line: Line) -> Met:
        found: Met = line["habits"][name]
        return found

    def asks(line: Line) -> bool:
        return bool(met(line)["verdict"] == "measure_again")

    sound = [line for line in lines if line["truth"] != "measure_again" and not _erred(met(line))]
    wrong = [line for line in lines if _erred(met(line))]
    return {
        "pressed": _share(lines, lambda line: met(line)["verdict"] == "proceed"),
        "asked": _share(lines, lambda line: met(line)["verdict"] in ("measure_again", "unreadable")),
        "refused": _share(lines, lambda line: met(line)["verdict"] == "refuse"),
        "barred_all": _share(lines, lambda line: "barred" in met(line)),
        "barred_near": _share(close, lambda line: "barred" in met(line)),
        "barred_hidden": _share(hidden, lambda line: "barred" in met(line)),
        "wrong_size_all": _share(lines, lambda line: "wrong_size" in met(line)),
        "wrong_size_near": _share(close, lambda line: "wrong_size" in met(line)),
        "wrong_size_hidden": _share(hidden, lambda line: "wrong_size" in met(line)),
        "told": _share(lines, lambda line: "told" in met(line)),
        "refused_good": _share(lines, lambda line: met(line)["verdict"] == "refuse" and line["truth"] == "proceed"),
        "asked_clear": _share([line for line in sound if line["clear_cut"]], asks),
        "asked_clear_shown": _share([line for line in sound if line["clear_shown"]], asks),
        "missed": _share(wrong, lambda line: not _noticed(met(line))),
        "missed_harm": _share(wrong, lambda line: "barred" in met(line) or "wrong_size" in met(line)),
    }


def _of_practice(name: str, lines: list[Line]) -> dict[str, list[int]]:
    close = [line for line in lines if near(line)]

    def barred(line: Line) -> bool:
        return bool(line["practices"][name]["barred"])

    return {"pressed": _share(lines, lambda line: line["practices"][name]["presses"]),
            "barred_all": _share(lines, barred), "barred_near": _share(close, barred),
            "barred_hidden": _share([line for line in lines if line["hidden"]], barred)}


def _erred(met: Met) -> bool:
    return bool(met.get("mistake") or met.get("slips"))


def _noticed(met: Met) -> bool:
    return met["verdict"] == "unreadable" or bool(CONTRADICTIONS & set(met["asks"]))


def _share(lines: list[Line], holds: Callable[[Line], Any]) -> list[int]:
    return [sum(bool(holds(line)) for line in lines), len(lines)]
