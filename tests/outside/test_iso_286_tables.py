"""The shipped ISO 286 tables against two independent implementations of ISO 286-1 and -2.

Sources: the open-source packages `pressfit` and `isofits` (PyPI); the formula of the tolerance unit,
i = 0.45 D^(1/3) + 0.001 D, ISO 286-1 (grade multipliers: value from memory).
"""

from pathlib import Path
from typing import Any

import isofits
import pressfit
import pytest
from pressfit import tables

from recommender.reading.shipped import shipped_rules
from recommender.reading.yaml_reader import read_file

SIZES = (24.0, 30.0, 37.0, 41.0, 42.0, 46.0)
MULTIPLIERS = {"IT5": 7, "IT6": 10, "IT7": 16, "IT8": 25, "IT9": 40, "IT10": 64, "IT11": 100}
NOT_IN_ISOFITS = {"S7", "s6"}


def _tables() -> dict[str, Any]:
    data: dict[str, Any] = read_file(Path(shipped_rules() / "tables" / "iso286.yaml")).data["tables"]
    return data


def _row(table: str, size: float) -> dict[str, Any]:
    rows: list[dict[str, Any]] = _tables()[table]["ranges"]
    return next(row for row in rows if _mm(row["over"]) < size <= _mm(row["to"]))


def _mm(text: str) -> float:
    return float(text.removesuffix(" mm"))


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("grade", range(5, 12))
def test_a_tolerance_grade_is_that_of_an_independent_table(size: float, grade: int) -> None:
    assert _row("iso286_grades", size)[f"IT{grade}"] == tables.it_value(size, grade)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("grade", sorted(MULTIPLIERS))
def test_a_tolerance_grade_is_near_the_formula_of_the_standard(size: float, grade: str) -> None:
    row = _row("iso286_grades", size)
    middle = (_mm(row["over"]) * _mm(row["to"])) ** 0.5
    formula = MULTIPLIERS[grade] * (0.45 * middle ** (1 / 3) + 0.001 * middle)
    assert row[grade] == pytest.approx(formula, abs=4.0)


@pytest.mark.parametrize("size", SIZES)
def test_every_hole_deviation_agrees_with_an_independent_table(size: float) -> None:
    compared = 0
    for name, deviations in _row("iso286_holes", size).items():
        if name in {"over", "to"} or name in NOT_IN_ISOFITS:
            continue
        assert tuple(deviations) == pytest.approx(isofits.isotol("hole", size, name, "both"))
        compared += 1
    assert compared == 10


@pytest.mark.parametrize("size", SIZES)
def test_every_shaft_deviation_agrees_with_two_independent_tables(size: float) -> None:
    compared = 0
    for name, deviations in _row("iso286_shafts", size).items():
        if name in {"over", "to"}:
            continue
        if name not in NOT_IN_ISOFITS:
            assert tuple(deviations) == pytest.approx(isofits.isotol("shaft", size, name, "both"))
        if name != "r6":
            fit = pressfit.fit(f"H7/{name}", size)
            assert tuple(deviations) == pytest.approx((fit.shaft_es_um, fit.shaft_ei_um))
        compared += 1
    assert compared == 9
