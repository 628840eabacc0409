"""Every diameter printed of a bore or a part stands with its unit, its tolerance and the temperature it holds at."""

import re
from collections.abc import Callable, Iterable, Iterator
from html.parser import HTMLParser
from typing import Any

import pytest

from recommender.account import lines
from recommender.account.answer_text import answer_lines
from recommender.account.lines import Line
from recommender.account.why_text import why_lines
from recommender.deciding.answer import Advice, as_data
from recommender.facts.catalogue import CATALOGUE

Advised = Callable[[str], Advice]
CASES = (
    "proceed/lane-2041", "proceed/quay-2012", "proceed/mill-2027", "proceed/dell-2093", "proceed/loch-2152",
    "proceed/alder-2063", "proceed/orchard-2052", "proceed/teal-2165", "refuse/flint-2146", "refuse/kiln-2014",
)  # fmt: skip
DIAMETER = re.compile(r"(?<![\d.])(?:3[5-9]|4\d|5[0-2])\.\d{2,3}(?![\d.])")
TOLERANCE = re.compile(r"\+-|±|\d to \d|mm to \d|between .* and |, 0 to -|within \d")
TEMPERATURE = re.compile(r"20 (?:degC|°C|C)\b")
DIAMETERS = {
    "bore.mean_diameter", "bore.inscribed_diameter", "bore.widest_diameter", "bore.mouth_diameter",
    "bore.inner_diameter", "part.od", "cut.bore",
}  # fmt: skip
SIZES = ("od_mm", "bore_mm", "window_mm", "class_window_mm", "seat_before")


@pytest.fixture
def unwrapped(monkeypatch: pytest.MonkeyPatch) -> None:
    """Print every entry on one line, so that what belongs together stands together."""
    monkeypatch.setattr(lines, "WIDTH", 10**6)


def bare(told: Iterable[str]) -> list[str]:
    """Return every text with a diameter that lacks unit, tolerance or temperature."""
    with_one = [each for each in told if DIAMETER.search(each)]
    return [each for each in with_one if not (" mm" in each and TOLERANCE.search(each) and TEMPERATURE.search(each))]


def texts(found: list[Line]) -> Iterator[str]:
    return (each.text for each in found)


@pytest.mark.usefixtures("unwrapped")
@pytest.mark.parametrize("name", CASES)
def test_in_the_answer(name: str, advised: Advised) -> None:
    assert bare(texts(answer_lines(advised(name)))) == []


@pytest.mark.usefixtures("unwrapped")
@pytest.mark.parametrize("name", CASES)
def test_in_the_reasons(name: str, advised: Advised) -> None:
    assert bare(texts(why_lines(advised(name)))) == []


class Shop(HTMLParser):
    """Collects what the shop's sheet says, a row of a table or a line of a list at a time."""

    def __init__(self) -> None:
        super().__init__()
        self.rows: list[str] = [""]
        self._inside = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        named = dict(attrs)
        if tag == "section":
            self._inside = named.get("id") == "shop"
        if tag in ("tr", "li", "p", "h3", "dt"):
            self.rows.append("")

    def handle_data(self, data: str) -> None:
        if self._inside:
            self.rows[-1] += f" {data}"


@pytest.mark.parametrize("name", CASES)
def test_on_the_sheet_of_the_shop(name: str, paged: Callable[[str], str]) -> None:
    shop = Shop()
    shop.feed(paged(name))
    assert len(shop.rows) > 5
    assert bare(each.replace("\u00a0", " ") for each in shop.rows) == []


@pytest.mark.parametrize("name", CASES)
def test_in_the_data(name: str, advised: Advised) -> None:
    for side in as_data(advised(name))["sides"].values():
        made = side["make"] or {}
        sizes: list[Any] = [made[each] for each in SIZES if made.get(each)]
        assert all(low < high for low, high in sizes)
        assert made.get("lead_in") is None or made["lead_in_within"] > 0
        assert not sizes or made["valid_at"] == "20 degC"
        options = [option for remedy in side["remedies"] for option in remedy["options"]]
        for facts in (side["facts"], *(option["facts"] for option in options)):
            known = {key: found for key, found in facts.items() if key in DIAMETERS and "value" in found}
            for found in known.values():
                assert (found["valid_at"], found["unit"]) == ("20 degC", "mm")
                assert found["low"] < found["high"]


def test_these_are_all_the_diameters_there_are() -> None:
    assert {each.id for each in CATALOGUE.values() if each.valid_at} == DIAMETERS
    lengths = [each for each in CATALOGUE.values() if each.unit == "mm" and each.span and each.span[0] >= 30]
    assert {each.id for each in lengths} <= DIAMETERS


def test_a_bare_diameter_is_seen() -> None:
    assert bare(["Turn OD to 46.051 +-0.005 mm (IT5)", "46.051 mm at 20 degC"]) != []
    assert bare(["Turn OD to 46.051 +-0.005 mm (IT5) at 20 degC"]) == []


@pytest.mark.parametrize("name", CASES)
def test_in_what_the_rules_say(name: str, advised: Advised) -> None:
    options = [option for side in advised(name).sides.values() for each in side.remedies for option in each.options]
    told = [finding.text for option in options for finding in option.findings if finding.outcome == "holds"]
    assert bare(told) == []
