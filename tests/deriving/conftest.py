"""Cases of a few lines: a sound 46 mm carbon frame, with pieces replaced by path."""

from collections.abc import Callable, Iterator
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest

from recommender.bench.load import LoadedCase, case_in
from recommender.deriving.derive import derive
from recommender.deriving.derived import Derived
from recommender.reading.shipped import shipped_rules
from recommender.reading.yaml_reader import read_file, read_text
from recommender.rulebook.assemble import assemble
from recommender.rulebook.book import Rulebook

THREE_POINT = {
    "instrument": "mic",
    "unit": "mm",
    "turns": [0, 40, 80],
    "at": {"2": [45.972, 45.972, 45.973], "5": [45.972, 45.971, 45.972], "8": [45.971, 45.972, 45.972]},
}
TWO_POINT = {
    "instrument": "two",
    "unit": "mm",
    "turns": [0, 60, 120],
    "at": {"2": [45.973, 45.971, 45.972], "8": [45.972, 45.971, 45.973]},
}
SIDE: dict[str, Any] = {
    "seat_depth": "10 mm",
    "bore_state": {"cleaned": "yes_cleaned", "coating": "none", "cut_before": "uncut"},
    "readings": [THREE_POINT, TWO_POINT],
}
INSTRUMENT = {
    "range": ["40 mm", "50 mm"],
    "resolution": "1 um",
    "calibrated": "2026-02-01",
    "ring": {"size": "46.000 mm", "before": "46.000 mm", "after": "46.000 mm"},
}
CASE: dict[str, Any] = {
    "case": "test-1",
    "title": "A sound frame",
    "received": "2026-05-04",
    "frame": {
        "material": "carbon",
        "standard": "pf30",
        "shell_width": "68.0 mm",
        "wall": "3.0 mm",
        "insert": "none",
        "openings": [],
    },
    "history": {"crash": "no_crash", "cups": [], "warranty": "closed"},
    "bench": {
        "frame_temperature": "20.0 degC",
        "instruments": [
            {"id": "mic", "kind": "three_point_micrometer", "error_limit": "4 um", **INSTRUMENT},
            {"id": "two", "kind": "two_point_gauge", "error_limit": "4 um", **INSTRUMENT},
        ],
    },
    "sides": {"drive": SIDE, "non_drive": SIDE},
    "damage": {"looked_at": {"bore": "lamp", "lip": "eye", "shell_outside": "tap", "joint": "eye"}, "signs": []},
    "parts": [{"part": "polymer_cup_46", "od": "46.032 mm", "bearing_fitted": "fitted"}],
}


def write(node: Any, indent: int = 0) -> Iterator[str]:
    """Yield the lines of plain data as YAML: block mappings, flow for what is empty, quoted text."""
    pad = "  " * indent
    for key, value in node.items():
        if isinstance(value, dict) and value:
            yield f"{pad}{key!r}:"
            yield from write(value, indent + 1)
        else:
            yield f"{pad}{key!r}: {flow(value)}"


def flow(value: Any) -> str:
    """Return plain data in YAML's flow form."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key!r}: {flow(each)}" for key, each in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(flow, value)) + "]"
    return "null" if value is None else repr(value)


def changed(changes: dict[str, Any]) -> dict[str, Any]:
    """Return the sound case with the values at dotted paths replaced, or taken away where the value is None."""
    case = deepcopy(CASE)
    for path, value in changes.items():
        *way, last = path.split(".")
        node = case
        for step in way:
            node = node[step]
        if value is None:
            node.pop(last, None)
        else:
            node[last] = value
    return case


@pytest.fixture
def sound() -> dict[str, Any]:
    return deepcopy(CASE)


@pytest.fixture(scope="session")
def book() -> Rulebook:
    return assemble([read_file(Path(path)) for path in sorted(shipped_rules().rglob("*.yaml"))])


@pytest.fixture(scope="session")
def case_with() -> Callable[..., LoadedCase]:
    def make(changes: dict[str, Any] | None = None) -> LoadedCase:
        return case_in(read_text("\n".join(write(changed(changes or {}))), "case.yaml"))

    return make


@pytest.fixture(scope="session")
def derived(book: Rulebook, case_with: Callable[..., LoadedCase]) -> Callable[..., Derived]:
    def make(changes: dict[str, Any] | None = None) -> Derived:
        return derive(case_with(changes), book)

    return make
