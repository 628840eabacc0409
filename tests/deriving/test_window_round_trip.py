"""The printed window is what the rules make of a part in it: entered again as measured, it is cleared, or it is not.

At its middle and its ends a part is cleared. Just outside, the limit that binds is named: either it was not named
inside, or the part is no longer cleared at all. With its whole interval outside, the part is ruled out.
"""

import re
from pathlib import Path

import pytest

from recommender.advice import advise
from recommender.bench.load import case_in
from recommender.deciding.answer import Advice, OptionShown
from recommender.deriving.derive import derive
from recommender.deriving.derived import OptionFacts
from recommender.reading.yaml_reader import read_text
from recommender.rulebook.book import Rulebook

CASES = Path(__file__).parents[2] / "cases"
CLEARED = {"cleared", "cleared_with_cautions"}
RANGE = {"riding.coldest": "fit.cold_pressure", "riding.hottest": "fit.hot_pressure"}
OUT, FAR = 0.005, 0.25  # just outside: twice what a window counts on for measuring the part, and its whole um inwards
TURNED_46, TURNED_41 = ("oversize_cup", "aluminium_cup_46"), ("oversize_cup", "aluminium_cup_41")
BOUGHT_42, BOUGHT_37 = ("press_as_is", "bearing_6806"), ("press_as_is", "bearing_37")
PRINTED = [
    ("proceed/lane-2041.yaml", "drive", *TURNED_46),
    ("proceed/lane-2041.yaml", "non_drive", "press_as_is", "polymer_cup_46"),
    ("proceed/forge-2033.yaml", "drive", *TURNED_46),
    ("proceed/bridge-2059.yaml", "drive", *BOUGHT_42),
    ("proceed/dune-2069.yaml", "drive", *BOUGHT_37),
    ("proceed/quay-2012.yaml", "drive", *TURNED_41),
    ("proceed/tram-2075.yaml", "drive", *TURNED_46),
    ("proceed/chapel-2049.yaml", "drive", *TURNED_41),
    ("proceed/cliff-2071.yaml", "drive", *TURNED_46),
    ("proceed/bridge-2058.yaml", "non_drive", *BOUGHT_42),
    ("proceed/heath-2066.yaml", "drive", *BOUGHT_42),
    ("proceed/orchard-2052.yaml", "non_drive", *TURNED_46),
    ("proceed/ferry-2044.yaml", "drive", *TURNED_46),
]


def with_parts(text: str, part: str, side: str, sizes: list[float]) -> str:
    """Return a case to which measured parts were added ahead of those in hand."""
    new = "".join(
        f"  - {{part: {part}, side: {side}, od: {{value: {size:.4f} mm, within: 1 um}}, bearing_fitted: fitted,\n"
        "     temperature: {value: 20 degC, within: 0.2 K}}\n"
        for size in sizes
    )
    return re.sub(r"^parts:.*\n", f"parts:\n{new}", text, count=1, flags=re.MULTILINE)


def window_of(text: str, side: str, remedy: str, part: str, book: Rulebook) -> OptionFacts:
    found = derive(case_in(read_text(text, "case.yaml")), book)
    return next(
        each for each in found.sides[side].options
        if each.remedy == remedy and each.part_id == part and each.facts["part.measured"].word is False
    )  # fmt: skip


def entered(advice: Advice, side: str, index: int, part: str) -> OptionShown:
    remedies = advice.sides[side].remedies
    options = next(each.options for each in remedies if each.id == "press_as_is")
    return next(each for each in options if each.part == f"{part} (in hand, no. {index + 1})")


def named(option: OptionShown) -> set[str]:
    """Return the limits that bars on an option name as broken or open."""
    bars = [each for each in option.findings if each.stance == "rules_out" and each.outcome != "fails"]
    checks = [check for each in bars for check in each.checks if check.outcome != "fails" and check.unit]
    words = {limit for check in checks for limit in re.findall(r"\(([a-z0-9_.]+)\)", check.wanted)}
    return words | {limit for limit, fact in RANGE.items() for check in checks if check.fact == fact}


def judged(path: str, side: str, remedy: str, part: str, book: Rulebook) -> tuple[tuple[str, str], list[OptionShown]]:
    text = (CASES / path).read_text("utf-8")
    make = window_of(text, side, remedy, part, book).make
    assert make is not None
    assert make.window is not None
    assert make.bound_by is not None
    low, high = make.window
    sizes = [low, (low + high) / 2, high, low - OUT, high + OUT, low - FAR, high + FAR]
    advice = advise(case_in(read_text(with_parts(text, part, side, sizes), "case.yaml")), book)
    return make.bound_by, [entered(advice, side, index, part) for index in range(len(sizes))]


@pytest.mark.parametrize(("path", "side", "remedy", "part"), PRINTED)
def test_a_part_of_the_printed_window_is_cleared_and_one_outside_is_not(
    path: str, side: str, remedy: str, part: str, book: Rulebook
) -> None:
    (low_by, high_by), found = judged(path, side, remedy, part, book)
    at_low, middle, at_high, under, over, far_under, far_over = found
    assert {at_low.outcome, middle.outcome, at_high.outcome} <= CLEARED
    for limit, inside, outside in ((low_by, at_low, under), (high_by, at_high, over)):
        assert limit in named(outside)
        assert limit not in named(inside) or outside.outcome not in CLEARED
    assert far_under.outcome == far_over.outcome == "ruled_out"
