"""The shipped ISO 492 and ISO 5753-1 tables and the bearings' boundary dimensions, value by value.

Sources: ISO 492:2014, tables of the normal class and classes 6 and 5 for radial bearings, as printed in bearing
catalogues (class 6: value from memory); ISO 5753-1, radial internal clearance of deep-groove ball bearings with a
cylindrical bore, as printed in bearing catalogues; ISO 15, dimension series 18, bore codes 05 and 06 (values from
memory, the same in every catalogue); S7 by the rule of ISO 286-1 for holes K to ZC (the shaft's lower deviation with
the other sign, plus the difference of the two grades) from the shaft of the open-source package `pressfit` (PyPI).
"""

import pressfit
import pytest

from recommender.rulebook.book import Rulebook
from recommender.rulebook.load import load

ISO_492_OUTER = {"normal": (0, -11), "P6": (0, -9), "P5": (0, -7)}
ISO_492_BORE = {"normal": (0, -10), "P6": (0, -8), "P5": (0, -6)}
ISO_492_OUTER_FORM = {"series_8_9": 14, "series_0_1": 11, "series_2_3_4": 8}
ISO_5753 = {
    (18, 24): {"C2": (0, 10), "CN": (5, 20), "C3": (13, 28), "C4": (20, 36)},
    (24, 30): {"C2": (1, 11), "CN": (5, 20), "C3": (13, 28), "C4": (23, 41)},
}
ISO_15 = {"6805": (25, 37, 7), "6806": (30, 42, 7)}


@pytest.fixture(scope="module")
def book() -> Rulebook:
    return load()


def columns(book: Rulebook, table: str, over: float, to: float) -> dict[str, object]:
    row = next(each for each in book.tables[table].rows if (each.over, each.to) == (over, to))
    return {name: tuple(each) if isinstance(each, list | tuple) else each for name, each in row.columns.items()}


def test_every_deviation_of_the_rings(book: Rulebook) -> None:
    assert columns(book, "iso492_outer_ring", 30, 50) == ISO_492_OUTER
    assert columns(book, "iso492_bore", 18, 30) == ISO_492_BORE


def test_the_form_of_the_outer_ring(book: Rulebook) -> None:
    found = columns(book, "iso492_outer_ring_form", 30, 50)
    assert {name: each[0] if isinstance(each, tuple) else each for name, each in found.items()} == ISO_492_OUTER_FORM


@pytest.mark.parametrize("ends", sorted(ISO_5753))
def test_every_clearance_of_the_table(book: Rulebook, ends: tuple[int, int]) -> None:
    assert columns(book, "iso5753_clearance", *ends) == ISO_5753[ends]


@pytest.mark.parametrize("designation", sorted(ISO_15))
def test_boundary_dimensions(book: Rulebook, designation: str) -> None:
    bearing = book.bearings[designation]
    assert (bearing.inner, bearing.outer, bearing.width) == ISO_15[designation]


@pytest.mark.parametrize(("size", "ends"), [(24.0, (18, 30)), (46.0, (30, 50))])
def test_the_hole_s7_by_the_rule_of_the_standard(book: Rulebook, size: float, ends: tuple[int, int]) -> None:
    shaft, grades = pressfit.fit("H7/s6", size), columns(book, "iso286_grades", *ends)
    upper = -shaft.shaft_ei_um + (value(grades["IT7"]) - value(grades["IT6"]))
    assert columns(book, "iso286_holes", *ends)["S7"] == pytest.approx((upper, upper - value(grades["IT7"])))


def value(given: object) -> float:
    found = given[0] if isinstance(given, tuple) else given
    assert isinstance(found, int | float)
    return float(found)
