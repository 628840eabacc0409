"""Whoever edits the shipped files, even where nothing is sealed, has it printed in every advice."""

import shutil
from pathlib import Path

import pytest

from recommender.advice import advise
from recommender.bench.load import load_case
from recommender.reading.shipped import shipped_cases, shipped_rules
from recommender.rulebook.load import load
from recommender.trials.run_cases import case_files

LOOSER = [  # limit, its value, the looser one
    ("roughness.loss:", "value: 6\n", "value: 5\n"),
    ("ream.tolerance:", "value: 5\n", "value: 4\n"),
]


def loosened(folder: Path, name: str, old: str, new: str) -> Path:
    """A copy of the shipped rules with one limit loosened that only formulas read, so that no example notices."""
    shutil.copytree(shipped_rules(), folder)
    for path in folder.rglob("*.yaml"):
        text = path.read_text("utf-8")
        head, mark, rest = text.partition(f"\n  {name}\n")
        if mark:
            assert old in rest.partition("source:")[0]
            path.write_text(head + mark + rest.replace(old, new, 1), encoding="utf-8")
    return folder


@pytest.mark.parametrize(("name", "old", "new"), LOOSER, ids=[each[0] for each in LOOSER])
def test_a_looser_limit_is_printed_in_the_advice(tmp_path: Path, name: str, old: str, new: str) -> None:
    book = load(rules=loosened(tmp_path / "rules", name, old, new))
    assert book.edited
    path = next(each for each in case_files(shipped_cases()) if each.stem == "hill-2036")
    loaded = load_case(path)
    assert "book_edited" in {each.id for each in advise(loaded, book).notices}
    assert advise(loaded, book).rulebook.edited
    assert "book_edited" not in {each.id for each in advise(loaded, load()).notices}
