"""No number in the shipped rules stands without a mark of where it comes from."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from recommender.account.rules_text import limits_summary
from recommender.reading.shipped import shipped_rules
from recommender.reading.yaml_reader import read_file
from recommender.rulebook.load import load
from recommender.rulebook.stock import SOURCE_WORDS

FILES = sorted(shipped_rules().rglob("*.yaml"))
NUMBER = re.compile(r"-?[0-9]+([.][0-9]+)?( [A-Za-z/%]+)?")
NO_NUMBERS_OF_ITS_OWN = {"wording", "words", "lists", "causes", "remedies"}


def unmarked(node: Any, way: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    """Yield the way to every number that has no `source` beside it or above it."""
    if isinstance(node, dict):
        if "source" not in node:
            for key, each in node.items():
                yield from unmarked(each, (*way, str(key)))
    elif isinstance(node, list):
        for index, each in enumerate(node):
            yield from unmarked(each, (*way, str(index)))
    elif isinstance(node, int | float | str) and not isinstance(node, bool) and NUMBER.fullmatch(str(node)):
        yield way


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_every_number_has_a_mark(path: Path) -> None:
    data = read_file(path).data
    sections = {name: each for name, each in data.items() if name not in NO_NUMBERS_OF_ITS_OWN}
    assert list(unmarked(sections)) == []


def test_a_number_without_a_mark_is_found() -> None:
    shell = {"bore": {"nominal": "46 mm"}, "source": {"kind": "memory"}}
    assert list(unmarked({"standards": {"one": shell}})) == []
    del shell["source"]
    assert list(unmarked({"standards": {"one": shell}})) == [("standards", "one", "bore", "nominal")]


def test_the_summary_counts_every_mark() -> None:
    book, told = load(), [each.text for each in limits_summary(load())]
    counts = {int(line.split()[0]) for line in told if line.endswith("by source:")}
    assert {len(book.limits), len(book.rules), len(book.tables)} <= counts
    for section, sources in (("limits", book.limits.values()), ("rules", book.rules)):
        start = next(index for index, line in enumerate(told) if f" {section} by source" in line)
        kinds = [each.source.kind for each in sources]
        for kind in set(kinds):
            wanted = f"{kinds.count(kind)}"
            assert any(line.split()[0] == wanted and SOURCE_WORDS[kind] in line for line in told[start + 1 : start + 6])
