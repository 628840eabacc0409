"""Files with the flaws they have marked under them, and how such files are checked."""

import re
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest

from recommender.checking.check import Checked, check_documents
from recommender.checking.pruning import Settled
from recommender.ground.flaw import Flaw, Flawed
from recommender.reading.yaml_reader import read_text

BROKEN = Path(__file__).parent / "broken"
SEALED = ("crack.seen",)
# `# ^^^ check | words of the message`; a mark that begins at the left edge counts the `#` in, `... LINE:COLUMN`
# after it gives the end of a range over several lines.
MARK = re.compile(r"^\s*#\s*(\^+)(?: to ([+]?\d+):(\d+))? (\S+)(?: \| (.*))?$")


class Marked(NamedTuple):
    """One flaw a file has: lines and columns from 1, the end exclusive."""

    line: int
    column: int
    end_line: int
    end_column: int
    check: str
    words: str


def marked(text: str) -> list[Marked]:
    """The flaws marked in a text, each under the line it is in."""
    found: list[Marked] = []
    line = 0
    for number, shown in enumerate(text.split("\n"), 1):
        match = MARK.match(shown)
        if match is None:
            line = number
            continue
        start = match.start(1) if shown[0] == "#" and match.start(1) == 1 else match.start(1) + 1
        end = match.end(1) + 1
        end_line = line + int(match[2]) if match[2] else line
        found.append(Marked(line, start, end_line, int(match[3] or end), match[4], match[5] or ""))
    return sorted(found)


def check_rules(*texts: str) -> Checked:
    """The small book and further rule files, checked."""
    base = read_text((BROKEN / "base.yaml").read_text("utf-8"), "rules/base.yaml")
    read, flaws = [base], []
    for number, text in enumerate(texts):
        try:
            read.append(read_text(text, f"rules/{number}.yaml"))
        except Flawed as refused:
            flaws += refused.flaws
    checked = check_documents(Settled(read), [], None, sealed=())
    return Checked(Flawed([*flaws, *checked.flaws]).flaws, checked.book)


def check_house(*texts: str, on: object = None) -> Checked:
    """The small book and house files, checked; `crack.seen` is sealed."""
    base = read_text((BROKEN / "base.yaml").read_text("utf-8"), "rules/base.yaml")
    read, flaws = [], []
    for number, text in enumerate(texts):
        try:
            read.append(read_text(text, f"house/{number}.yaml"))
        except Flawed as refused:
            flaws += refused.flaws
    checked = check_documents(Settled([base]), read, None, on, SEALED)  # type: ignore[arg-type]
    spoken = [each for each in checked.flaws if each.place.file.startswith("house")]
    return Checked(Flawed([*flaws, *spoken]).flaws, checked.book)


def spoken(checked: Checked) -> tuple[Flaw, ...]:
    """The flaws found, without notes."""
    return tuple(each for each in checked.flaws if each.level != "note")


@pytest.fixture(scope="session")
def rules_checked() -> Callable[..., Checked]:
    return check_rules


@pytest.fixture(scope="session")
def house_checked() -> Callable[..., Checked]:
    return check_house


@pytest.fixture(scope="session")
def marks() -> Callable[[str], list[Marked]]:
    return marked


@pytest.fixture(scope="session")
def check_file() -> Callable[..., list[Flaw]]:
    def check(text: str, kind: str, on: object) -> list[Flaw]:
        checked = check_rules(text) if kind == "rules" else check_house(text, on=on)
        return sorted(spoken(checked), key=lambda each: (*each.place[1:], each.check))

    return check
