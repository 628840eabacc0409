"""Tries changes on the tests that reach them, and says how many were noticed."""

import argparse
import json
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from importlib import import_module

import yaml
from scipy.stats import binomtest

from mutants.graft import graft
from mutants.reach import measure, reaching
from mutants.served import Outcome, Served
from mutants.survivors import PACKAGE, Mutant, listed


class Trying:
    """One call of the command."""

    def __init__(self, told: argparse.Namespace) -> None:
        self.told = told
        self.done = told.scratch / f"{told.package}.ndjson"

    def work(self, served: Served) -> None:
        """Draw changes, try each, print what became of it, the survivors and the share that was killed."""
        self.served = served
        self.files = [] if self.told.tests else measure(served, self.told.scratch)
        ended = {mutant: self._ended(mutant) for mutant in self._mutants()}
        _tell("\n".join(_figures(ended)))

    def _mutants(self) -> list[Mutant]:
        package = self.told.package
        if self.told.listed:
            return [each for each in listed(self.told.listed) if each.module.startswith(f"{package}/")]
        from mutants import changes

        mutants, places = changes.drawn(package, self.told.seed, self.told.sample)
        _tell(f"{len(mutants)} changes at as many of {places} places of recommender/{package}")
        return mutants

    def _ended(self, mutant: Mutant) -> Outcome:
        name = f"{mutant.name} {self.told.most}"
        for line in self.done.read_text("utf-8").splitlines() if self.done.exists() and not self.told.listed else ():
            known = json.loads(line)
            if known["name"] == name:
                return Outcome(*known["outcome"])
        outcome = self._tried(mutant)
        with self.done.open("a", encoding="utf-8") as opened:
            opened.write(json.dumps({"name": name, "outcome": outcome, **mutant.entry()}) + "\n")
        _tell(f"{outcome.seconds:6.1f} s  {outcome.how}  {mutant.module}:{mutant.line}  {outcome.test}")
        return outcome

    def _tried(self, mutant: Mutant) -> Outcome:
        chosen = reaching(self.files, mutant, self.told.most)
        if self.told.tests:
            chosen = dict.fromkeys(self.served.files, self.told.most)
        if not chosen:
            return Outcome("passed", "no test reaches it", 0.0)
        return self.served.run({file: 5.0 + 4.0 * seconds for file, seconds in chosen.items()}, _changed(mutant))


@contextmanager
def _changed(mutant: Mutant) -> Iterator[None]:
    """Change the loaded module for as long as the process lives."""
    module = import_module(f"{PACKAGE.name}.{mutant.module.removesuffix('.py').replace('/', '.')}")
    graft(module, (PACKAGE / mutant.module).read_text("utf-8"), mutant.source())
    yield


def _figures(ended: dict[Mutant, Outcome]) -> Iterator[str]:
    untried = [mutant for mutant, outcome in ended.items() if outcome.how == "not put in"]
    survivors = [mutant for mutant, outcome in ended.items() if outcome.how == "passed"]
    killed, explained = len(ended) - len(untried) - len(survivors), listed()
    new = [each.entry() for each in survivors if each not in explained]
    yield yaml.safe_dump(new, sort_keys=False, allow_unicode=True, width=1000) if new else ""
    yield from (f"{outcome.how}: {each.module}:{each.line}  {each.after}" for each, outcome in ended.items()
                if outcome.how not in ("failed", "passed"))  # fmt: skip
    yield f"killed: {_share(killed, killed + len(survivors))}"
    if len(new) < len(survivors):
        yield (f"without {len(survivors) - len(new)} that change no answer (survivors.yaml): "
               f"{_share(killed, killed + len(new))}")  # fmt: skip


def _share(killed: int, tried: int) -> str:
    if not tried:
        return "none tried"
    low, high = binomtest(killed, tried).proportion_ci(method="exact")
    return f"{killed} of {tried}, {killed / tried:.1%} (exact 95 % interval {low:.1%} to {high:.1%})"


def _tell(text: str) -> None:
    sys.stdout.write(f"{text}\n")
    sys.stdout.flush()
