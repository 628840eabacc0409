"""Inches beside millimetres: 25.4 mm to the inch exactly (ISO 80000-3, 1959 agreement on the yard)."""

import re
from collections.abc import Callable

import pytest

from recommender.account.answer_text import answer_lines
from recommender.account.inches import also_in_inches, where_asked, with_inches
from recommender.account.lines import plain
from recommender.account.page import page
from recommender.account.page_matter import Matter
from recommender.deciding.answer import Advice

PAIR = re.compile(r"([-+]?[\d.]+)[ \u00a0](mm|um|µm)(?: \([^)]*\))? \[([-\d.]+)[ \u00a0]in")
SCALE = {"mm": 1.0, "um": 1e-3, "µm": 1e-3}


@pytest.mark.parametrize(("text", "told"), [
    ("bore 46.000 mm", "bore 46.000 mm [1.81102 in]"),
    ("mean 25.400 mm (25.400 to 50.800)", "mean 25.400 mm (25.400 to 50.800) [1.00000 in (1.00000 to 2.00000)]"),
    ("12.7 to 25.4 mm wide", "12.7 to 25.4 mm [0.500 to 1.000 in] wide"),
    ("46.051 +-0.005 mm", "46.051 +-0.005 mm [1.81303 +-0.00020 in]"),
    ("60.2 um tight", "60.2 um [0.00237 in] tight"),
    ("6806, 30 x 42 x 7 mm", "6806, 30 x 42 x 7 mm"),
    ("583 um/m of strain, 3.2 MPa", "583 um/m of strain, 3.2 MPa"),
    ("polymer_cup_46 mm", "polymer_cup_46 mm"),
])  # fmt: skip
def test_with_inches(text: str, told: str) -> None:
    assert with_inches(text) == told


def test_only_where_asked() -> None:
    assert where_asked("46.000 mm") == "46.000 mm"
    with also_in_inches():
        assert where_asked("46.000 mm") == "46.000 mm [1.81102 in]"
    assert where_asked("46.000 mm") == "46.000 mm"


def agree(text: str) -> int:
    """Return how many lengths stand in both units, every one of them right to the digits printed."""
    found = PAIR.findall(text)
    for number, unit, inches in found:
        digits = len(inches.partition(".")[2])
        assert abs(float(number) * SCALE[unit] / 25.4 - float(inches)) <= 0.5001 * 10**-digits
    return len(found)


def test_text_and_page_give_both(matter: Callable[[str], Matter], advised: Callable[[str], Advice]) -> None:
    with also_in_inches():
        text = " ".join(plain(answer_lines(advised("proceed/mill-2027"))).split())
        made = page(matter("proceed/mill-2027"))
    assert agree(text) > 20
    assert agree(re.sub(r"<[^>]+>", "", made.replace("<wbr>", ""))) > 100
    for line in plain(answer_lines(advised("proceed/mill-2027"))).splitlines():
        assert " in]" not in line
