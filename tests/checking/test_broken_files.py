"""Every flaw of a broken file stands where the file says it does; none is left out and none is made up."""

from collections import Counter
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from recommender.checking.pages import check_ids

BROKEN = Path(__file__).parent / "broken"
FILES = sorted(BROKEN.glob("*/*.yaml"))
SOME_DAY = date(2026, 11, 25)


@pytest.mark.parametrize("path", FILES, ids=lambda each: f"{each.parent.name}/{each.stem}")
def test_exactly_the_marked_flaws_are_found(
    path: Path, check_file: Callable[..., Any], marks: Callable[..., Any]
) -> None:
    text = path.read_text("utf-8")
    found = check_file(text, path.parent.name, SOME_DAY)
    wanted = marks(text)
    assert wanted
    places = [(*each.place[1:], each.check) for each in found]
    assert places == [each[:5] for each in wanted], "\n".join(map(str, found))
    for flaw, mark in zip(found, wanted, strict=True):
        assert mark.words in f"{flaw.message} {flaw.advice}"
        assert flaw.advice.strip()
        assert "^" in flaw.shown
        assert "Traceback" not in str(flaw)


def test_ten_mistakes_are_ten_flaws(check_file: Callable[..., Any]) -> None:
    text = (BROKEN / "rules" / "ten_mistakes.yaml").read_text("utf-8")
    assert len(check_file(text, "rules", None)) == 10


def test_there_are_enough_broken_files() -> None:
    assert len(FILES) >= 60


# What only the shipped book as a whole can have is broken in the tests of seals; the note says that nothing is wrong.
ELSEWHERE = {"rules.missing", "rules.seal-changed", "rules.seal-missing", "rules.unasked-fact"}


def test_every_class_of_flaw_is_broken_at_least_twice(marks: Callable[..., Any]) -> None:
    seen = Counter(mark.check for path in FILES for mark in marks(path.read_text("utf-8")))
    assert [check for check in check_ids() if check not in ELSEWHERE and seen[check] < 2] == []
