"""Clearances and diameter bands the tool decides with, against ISO 5753-1 and ISO 492.

Sources: ISO 5753-1, radial internal clearance of deep-groove ball bearings, bore over 24 to 30 mm and over 18 to
24 mm, as printed in a bearing supplier's technical pages (two other suppliers print C3 13 to 25 for 18 to 24 mm; 28
is the standard's, value from memory); ISO 492, normal class, mean outside diameter over 30 to 50 mm, 0 to -11 um, as
printed in a supplier's tolerance table.
"""

import pytest

from recommender.rulebook.book import Bearing, Rulebook
from recommender.rulebook.load import load

OVER_24_TO_30 = {"C2": (1, 11), "CN": (5, 20), "C3": (13, 28), "C4": (23, 41)}
OVER_18_TO_24 = {"C2": (0, 10), "CN": (5, 20), "C3": (13, 28), "C4": (20, 36)}
OUTER_RING_NORMAL = (-11, 0)


@pytest.fixture(scope="module")
def book() -> Rulebook:
    return load()


def _published(bearing: Bearing) -> dict[str, tuple[int, int]]:
    return OVER_24_TO_30 if 24 < bearing.inner <= 30 else OVER_18_TO_24


def test_every_bearing_is_used_with_the_published_clearances(book: Rulebook) -> None:
    assert book.bearings
    for bearing in book.bearings.values():
        for name, band in bearing.clearance.items():
            assert [end * 1000 for end in band] == pytest.approx(_published(bearing)[name]), (bearing.id, name)


def test_every_bearing_s_outside_lies_in_the_normal_class(book: Rulebook) -> None:
    for bearing in book.bearings.values():
        assert 30 < bearing.outer <= 50
        assert [(end - bearing.outer) * 1000 for end in bearing.od] == pytest.approx(OUTER_RING_NORMAL)


def test_a_generic_bearing_part_has_the_band_of_its_bearing(book: Rulebook) -> None:
    parts = [part for part in book.parts.values() if part.kind == "bearing"]
    assert parts
    for part in parts:
        assert part.od == pytest.approx(book.bearings[part.bearing].od)


def test_the_shipped_clearance_table_agrees_with_the_bearings(book: Rulebook) -> None:
    for bearing in book.bearings.values():
        row = next(each for each in book.tables["iso5753_clearance"].rows if each.over < bearing.inner <= each.to)
        for name, band in bearing.clearance.items():
            assert [end * 1000 for end in band] == pytest.approx(row.columns[name]), (bearing.id, name)
