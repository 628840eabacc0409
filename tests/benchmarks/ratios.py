"""A ratio of two costs measured in turn in one run, so that a slow moment of the machine hits both."""

import gc
import os
import re
import resource
import subprocess
import time
from collections.abc import Callable, Mapping, Sequence
from statistics import median
from typing import NamedTuple

COLLECTED = re.compile(rb"Collected : (\d+)")


class Ratio(NamedTuple):
    """What was compared, both medians in their unit, and the bound: `most` where less is better, else `least`."""

    name: str
    ours: float
    other: float
    unit: str
    most: float | None = None
    least: float | None = None

    @property
    def value(self) -> float:
        return self.ours / self.other

    @property
    def met(self) -> bool:
        return (self.most is None or self.value <= self.most) and (self.least is None or self.value >= self.least)

    def line(self) -> str:
        bound = f"<= {self.most:g}" if self.most is not None else f">= {self.least:g}"
        mark = "" if self.met else "  MISSED"
        numbers = f"{self.ours:12.4g} {self.other:12.4g} {self.unit:8s} {self.value:8.2f} {bound:>8s}"
        return f"{self.name:62s} {numbers}{mark}"


def in_turn(one: Callable[[], object], two: Callable[[], object], runs: int) -> tuple[float, float]:
    """Return the medians of the processor seconds of this process that two functions take, called in turn."""
    one(), two()
    times: tuple[list[float], list[float]] = ([], [])
    for _ in range(runs):
        for spent, run in zip(times, (one, two), strict=True):
            gc.collect()
            gc.disable()
            start = time.process_time()
            run()
            spent.append(time.process_time() - start)
            gc.enable()
    return median(times[0]), median(times[1])


def processes(
    one: Sequence[str], two: Sequence[str], runs: int, env: Callable[[], Mapping[str, str]]
) -> tuple[float, float]:
    """Return the medians of the processor seconds that two commands take as whole processes, run in turn."""
    times = ([_spent(one, env()), _spent(two, env())] for _ in range(runs + 1))
    warm = list(times)[1:]
    return median(each[0] for each in warm), median(each[1] for each in warm)


def compiled(folder: str) -> dict[str, str]:
    """Return an environment in which a second start finds every module compiled, in that folder."""
    bare = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return {**bare, "PYTHONPYCACHEPREFIX": folder}


def instructions(command: Sequence[str], env: Mapping[str, str]) -> int:
    """Return how many instructions a command takes at its second start, by valgrind; no load moves that."""
    _spent(command, env)
    tool = ["valgrind", "--tool=callgrind", "--callgrind-out-file=/dev/null"]
    done = subprocess.run([*tool, *command], env={**env, "PYTHONHASHSEED": "0"}, capture_output=True, check=False)
    found = COLLECTED.search(done.stderr)
    if found is None:
        raise RuntimeError(done.stderr.decode(errors="replace")[-500:])
    return int(found[1])


def _spent(command: Sequence[str], env: Mapping[str, str]) -> float:
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(command, env=dict(env), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
