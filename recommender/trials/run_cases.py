"""Runs cases that say what they expect, and those that have to be refused at reading."""

from collections.abc import Callable, Iterable, Iterator
from datetime import date
from pathlib import Path
from typing import NamedTuple

from recommender.advice import advise
from recommender.bench.load import load_case
from recommender.ground.flaw import Flaw, Flawed
from recommender.rulebook.book import Rulebook
from recommender.trials.expected import Missed, missed
from recommender.trials.malformed import LIST, Expected, expected_flaws, flaws_found, shows

BookOn = Callable[[date], Rulebook]


class CaseResult(NamedTuple):
    """What became of one case: expectations missed, flaws that kept it from being judged, what it was tried for.

    `verdict` is that of the frame, `refused at reading` for a malformed case, empty where there is none.
    """

    path: Path
    verdict: str
    missed: tuple[Missed, ...] = ()
    flaws: tuple[Flaw, ...] = ()
    expects: bool = True

    @property
    def met(self) -> bool:
        """Return whether nothing was missed and nothing kept it from being judged."""
        return not self.missed and not self.flaws


def run_cases(paths: Iterable[Path], books: BookOn) -> tuple[CaseResult, ...]:
    """Return the result of every case in these files and folders, in order; folders are searched to the bottom.

    `books` gives the rule book in force on the day a frame was received. A folder with a list of malformed cases
    is tried against that list. Raises Flawed when a list or path is flawed.
    """
    return tuple(each for path in paths for each in _run_path(path, books))


def case_files(folder: Path) -> tuple[Path, ...]:
    """Return the case files in a folder, sorted, without those listed as malformed."""
    return tuple(each for each in sorted(folder.rglob("*.yaml")) if not (each.parent / LIST).exists())


def malformed_lists(folder: Path) -> tuple[Path, ...]:
    """Return the folders of malformed cases in a folder, itself included, sorted."""
    return tuple(each.parent for each in sorted(folder.rglob(LIST)))


def run_case(path: Path, books: BookOn) -> CaseResult:
    """Return what became of one case."""
    try:
        loaded = load_case(path)
        advice = advise(loaded, books(loaded.case.received))
    except Flawed as refused:
        return CaseResult(path, "", flaws=refused.flaws)
    expect = loaded.case.expect
    if expect is None:
        return CaseResult(path, advice.frame.verdict, expects=False)
    return CaseResult(path, advice.frame.verdict, missed(expect, advice))


def run_malformed(expected: Expected) -> CaseResult:
    """Return whether a malformed case is refused for the flaw it is expected to show."""
    found = flaws_found(expected.path)
    if shows(found, expected.flaw):
        return CaseResult(expected.path, "refused at reading")
    wanted = expected.flaw
    about = f"{wanted.line}:{wanted.column} {wanted.message_part}"
    said = "; ".join(f"{each.place.line}:{each.place.column} {each.message}" for each in found) or "no flaw"
    return CaseResult(expected.path, "", (Missed("flaw", about, said, "refused for something else, or not at all"),))


def _run_path(path: Path, books: BookOn) -> Iterator[CaseResult]:
    if not path.is_dir():
        yield run_case(path, books)
        return
    for each in case_files(path):
        yield run_case(each, books)
    for folder in malformed_lists(path):
        yield from (run_malformed(each) for each in expected_flaws(folder))
