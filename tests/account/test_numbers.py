"""Numbers are written as the bench writes them."""

import pytest

from recommender.account.numbers import between, margin, size, times, turned, with_interval
from recommender.deciding.answer import CheckShown, Found


@pytest.mark.parametrize(
    ("band", "written"),
    [
        ((46.046, 46.056), "46.051 +-0.005 mm"),
        ((46.051, 46.051), "46.051 mm"),
        ((46.0485, 46.0535), "46.051 +-0.0025 mm"),
        ((1.1, 1.1), "1.100 mm"),
    ],
)
def test_turning_bands(band: tuple[float, float], written: str) -> None:
    assert turned(band) == written


def test_bands_by_their_ends() -> None:
    assert between((46.0, 46.05)) == "46.000 to 46.050 mm"
    assert between((1200.0, 3400.0), "N") == "1200 to 3400 N"
    assert between((2.0, 2.0)) == "2.000 mm"


def test_catalogue_sizes() -> None:
    assert [size(each) for each in (42.0, 41.5, 7.0)] == ["42", "41.5", "7"]


def test_intervals_name_the_unit_once() -> None:
    assert with_interval(Found("", 45.972, 45.969, 45.975, "mm")) == "45.972 mm (45.969 to 45.975)"
    assert with_interval(Found("", 2.0, 2.0, 2.0, "mm")) == "2.000 mm"
    assert with_interval(Found("yes", word=True)) == "yes"
    assert with_interval(Found("unknown (not read)", unknown="not read")) == "unknown (not read)"


def check(distance: float | None, spreads: float | None) -> CheckShown:
    return CheckShown("fit.mean_interference", "mean interference", "fails", Found(""), "", distance, "um", spreads, "")


@pytest.mark.parametrize(
    ("distance", "spreads", "written"),
    [
        (-42.0, -6.04, "42.0 um, 6.0 times its spread"),
        (3.0, None, "3.0 um"),
        (None, None, ""),
        (0.02, 0.01, "0.0 um, under a tenth of its spread"),
    ],
)
def test_margins(distance: float | None, spreads: float | None, written: str) -> None:
    assert margin(check(distance, spreads)) == written


def test_large_factors_need_no_decimals() -> None:
    assert times(15.4) == "15 times"
