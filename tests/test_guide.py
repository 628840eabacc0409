"""The guide for contributors names tests, modules and folders that exist."""

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
GUIDE = (ROOT / "DEVELOPERS.md").read_text("utf-8")
SECTION = re.search(r"^## What a file may and may not do\n(.*?)^## ", GUIDE, re.MULTILINE | re.DOTALL)
TESTS = sorted(set(re.findall(r"tests/[a-z_/]+\.py", GUIDE)))


@pytest.mark.parametrize("name", TESTS)
def test_a_file_the_guide_names_exists(name: str) -> None:
    assert (ROOT / name).is_file()


def test_every_kind_of_file_has_tests_that_prove_its_bounds() -> None:
    assert SECTION is not None
    rows = [line for line in SECTION[1].splitlines() if line.startswith("| ")][1:]
    assert len(rows) >= 9
    assert all(re.search(r"`tests/[a-z_/]+\.py` *(,|\|)", row) for row in rows)
