"""Answer, page and JSON say the same: every quantity of the answer stands on the page, and in the JSON, as printed."""

import json
import re
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from matplotlib.figure import Figure

from recommender.account.answer_side import side_lines
from recommender.account.lines import plain
from recommender.account.page import page
from recommender.account.page_matter import Matter
from recommender.deciding.answer import to_json
from recommender.reading.shipped import shipped_cases

JUDGED = sorted(
    f"{path.parent.name}/{path.stem}" for path in shipped_cases().glob("*/*.yaml") if path.parent.name != "malformed"
)
NUMBER = r"-?\d+(?:\.\d+)?"
QUANTITY = re.compile(
    rf"{NUMBER}(?: \+-{NUMBER}| to {NUMBER})? (?:mm|um|MPa|N|arcmin)\b(?!/)(?: \({NUMBER} to {NUMBER}\))?"
)
EXACT = re.compile(rf"({NUMBER}) (mm|um)(?: \(({NUMBER}) to ({NUMBER})\))?")


@pytest.fixture
def undrawn(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Figure, "savefig", lambda self, out, **more: out.write("<svg></svg>"))


def words_of(made: str) -> str:
    """Return the words of a page as a terminal would print them."""
    body = re.sub(r"<style>.*?</style>", "", made, flags=re.DOTALL)
    text = re.sub(r"\s+", " ", re.sub(r"<[^>]+>", "", body.replace("<wbr>", "")).replace("\u00a0", " "))
    return text.replace("µm", "um").replace("±", "+-").replace("°C", "degC")


def answered(matter: Matter) -> str:
    """Return what the answer says of both sides, on one line."""
    return " ".join(plain(line for name in matter.advice.sides for line in side_lines(matter.advice, name)).split())


def stands_on(quantity: str, words: str) -> bool:
    """Return whether a quantity stands in a text as a whole, not as the end or beginning of another number."""
    return re.search(rf"(?<![\d.-]){re.escape(quantity)}", words) is not None


def numbers(data: Any) -> Iterator[tuple[float, ...]]:
    """Yield every number of plain data by itself, and every fact with its interval."""
    if isinstance(data, dict):
        if {"value", "low", "high"} <= data.keys():
            yield data["value"], data["low"], data["high"]
        for each in data.values():
            yield from numbers(each)
    elif isinstance(data, list):
        if len(data) == 2 and all(isinstance(each, float) for each in data):
            yield from (((data[0] + data[1]) / 2,), ((data[1] - data[0]) / 2,))
        for each in data:
            yield from numbers(each)
    elif isinstance(data, int | float) and not isinstance(data, bool):
        yield (float(data),)


@pytest.mark.parametrize("name", JUDGED)
def test_every_quantity_of_the_answer_stands_on_the_page(
    name: str, matter: Callable[[str], Matter], undrawn: None
) -> None:
    words = words_of(page(matter(name)))
    assert [each for each in QUANTITY.findall(answered(matter(name))) if not stands_on(each, words)] == []


@pytest.mark.parametrize("name", JUDGED)
def test_every_length_of_the_answer_stands_in_the_json(name: str, matter: Callable[[str], Matter]) -> None:
    """A length with its interval is one fact of the JSON, all three numbers together."""
    data = json.loads(to_json(matter(name).advice))
    known = set(numbers({key: each for key, each in data.items() if key != "trace"}))
    shown = {(unit, *map(float, filter(None, values))) for *values, unit in (
        (value, low, high, unit) for value, unit, low, high in EXACT.findall(answered(matter(name))))}  # fmt: skip
    facts = [each for each in known if len(each) == 3]
    strays = [each for each in shown if len(each) == 4 and not any(_printed(each[1:], fact, each[0]) for fact in facts)]
    assert strays == []


def _printed(shown: tuple[float, ...], fact: tuple[float, ...], unit: str) -> bool:
    step = 5.001e-4 if unit == "mm" else 0.05001
    return all(abs(one - other) <= step for one, other in zip(shown, fact, strict=True))


def test_a_quantity_that_stands_nowhere_is_seen(matter: Callable[[str], Matter]) -> None:
    text = answered(matter("proceed/lane-2041"))
    assert len(QUANTITY.findall(text)) > 15
    assert not stands_on("45.97 mm", "145.97 mm")
    assert not stands_on("5.0 um", "15.0 um")
