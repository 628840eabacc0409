"""Cases that must be refused at reading: the flaw each is expected to show, and where."""

from pathlib import Path
from typing import NamedTuple

from recommender.bench.load import FlawedCase, load_case
from recommender.ground.flaw import Flaw
from recommender.reading.model import Model
from recommender.reading.validate import validated
from recommender.reading.yaml_reader import read_file

LIST = "expected.yaml"


class ExpectedFlaw(Model):
    """Where a flaw is expected and what its message or advice has to contain."""

    line: int
    column: int
    message_part: str


class Expected(NamedTuple):
    """One file that has to be refused, and the flaw it has to show."""

    path: Path
    flaw: ExpectedFlaw


def expected_flaws(folder: Path) -> tuple[Expected, ...]:
    """Return the files listed in a folder of malformed cases, sorted; raises Flawed when the list is flawed."""
    listed = read_file(folder / LIST)
    return tuple(
        Expected(folder / name, validated(listed, ExpectedFlaw, (name,))) for name in sorted(listed.data)
    )


def flaws_found(path: Path) -> tuple[Flaw, ...]:
    """Return the flaws a case file is refused for, none when it is accepted."""
    try:
        load_case(path)
    except FlawedCase as refused:
        return refused.flaws
    return ()


def shows(flaws: tuple[Flaw, ...], wanted: ExpectedFlaw) -> bool:
    """Return whether one of the flaws stands where it is expected and says what it has to."""
    return any(
        (each.place.line, each.place.column) == (wanted.line, wanted.column)
        and wanted.message_part in f"{each.message} {each.advice}"
        for each in flaws
    )
