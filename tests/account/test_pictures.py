"""Pictures draw what they say: the form enlarged as stated, directions as read, the same bytes each time."""

import re
from math import degrees
from urllib.parse import unquote
from xml.etree import ElementTree

import numpy as np
import pytest

from recommender.account.pictures.bores import Bore, Interval, bore
from recommender.account.pictures.depth import Piece, depth
from recommender.account.pictures.drawing import plain_settings
from recommender.account.pictures.section import FULL, section
from recommender.account.pictures.window import Fit, window
from recommender.bench.readings import ReadingPoint
from recommender.deciding.answer import Found

SEES = {"two": "two_point", "mic": "three_point"}


def facts(**changed: Found) -> dict[str, Found]:
    sizes = {"mean_diameter": 46.0, "inscribed_diameter": 45.95, "widest_diameter": 46.05, "mouth_diameter": 46.0,
             "inner_diameter": 46.0}  # fmt: skip
    found = {f"bore.{key}": Found("", each, each - 0.004, each + 0.004, "mm") for key, each in sizes.items()}
    forms = {f"bore.{key}": Found("", each, 0.0, each, "um") for key, each in (("ovality", 90.0), ("lobing", 3.0))}
    return {**found, **forms, "evidence.rests_on_assumption": Found("no", word=False), **changed}


def two_point(widest: float, size: float = 0.09) -> list[ReadingPoint]:
    values = {turn: 46.0 + size / 2 * np.cos(2 * np.radians(turn - widest)) for turn in (0.0, 60.0, 120.0)}
    return [ReadingPoint(value, "two", at, turn, 0, None, ()) for turn, value in values.items() for at in (2.0, 8.0)]


def drawn(widest: float = 30.0) -> Bore:
    made = bore("drive", facts(), two_point(widest), SEES, 10.0)
    assert made is not None
    return made


@pytest.mark.parametrize("widest", [0.0, 30.0, 100.0, 170.0])
def test_the_oval_lies_where_the_readings_have_it(widest: float) -> None:
    turn = drawn(widest).turns[2]
    assert turn is not None
    assert degrees(turn) % 180 == pytest.approx(widest, abs=1e-6)


def test_the_oval_is_as_large_as_the_fact_says() -> None:
    made = drawn()
    diameters = made.radius(FULL) + made.radius(FULL + np.pi)
    assert np.ptp(diameters) == pytest.approx(0.09, abs=1e-5)


def test_two_turns_show_no_direction() -> None:
    points = [each for each in two_point(0.0) if each.turn != 120.0]
    made = bore("drive", facts(), points, SEES, 10.0)
    assert made is not None
    assert made.turns[2] is None
    assert np.ptp(made.radius(FULL)) == 0.0


def test_struck_readings_are_not_drawn() -> None:
    points = [*two_point(0.0), ReadingPoint(47.0, "two", 2.0, 90.0, 0, "slipped", ())]
    made = bore("drive", facts(), points, SEES, 10.0)
    assert made is not None
    assert len(made.points["two_point"]) == 6


def test_an_unknown_form_is_not_drawn() -> None:
    unknown = Found("unknown", unknown="not read")
    assert bore("drive", facts(**{"bore.mean_diameter": unknown}), (), SEES, 10.0) is None


def test_readings_are_brought_to_the_middle_of_a_tapered_seat() -> None:
    ends = {"bore.mouth_diameter": Found("", 46.05, 46.05, 46.05, "mm"),
            "bore.inner_diameter": Found("", 45.95, 45.95, 45.95, "mm")}  # fmt: skip
    made = bore("drive", facts(**ends), (), SEES, 10.0)
    assert made is not None
    assert made.at_middle(ReadingPoint(46.03, "two", 2.0, 0.0, 0, None, ())) == pytest.approx(46.0)


def test_the_scale_stated_is_the_scale_drawn() -> None:
    """The section's outline in the SVG, measured, is the mean circle plus `scale` times the deviation."""
    made = drawn(0.0)
    with plain_settings():
        shown, scale = section(made, (45.95, 46.0), "alt")
    outline = _longest_paths(unquote(shown.source.partition(",")[2]))
    radii = np.hypot(*(outline - (outline.max(axis=0) + outline.min(axis=0)) / 2).T)
    expected = (made.mean.value / 2 + scale * 0.09 / 4) / (made.mean.value / 2 - scale * 0.09 / 4)
    assert radii.max() / radii.min() == pytest.approx(expected, rel=0.02)


def _longest_paths(svg: str) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    """Return the corners of the heaviest line of a drawing: the section itself."""
    tree = ElementTree.fromstring(svg)
    paths = tree.iter("{http://www.w3.org/2000/svg}path")
    lines = [each.get("d", "") for each in paths if "stroke-width: 1.8" in each.get("style", "")]
    numbers = [float(each) for each in re.findall(r"[-\d.]+", max(lines, key=len))]
    return np.array(numbers).reshape(-1, 2)


def test_pictures_give_the_same_bytes_each_time() -> None:
    fit = Fit("drive", "press", Interval(50, 45, 55), Interval(60, 55, 65), (0, 100), (30, 80), "cleared", True, "")
    with plain_settings():
        once = (section(drawn(), (45.95, 46.0), "a")[0], depth(drawn(), (None, 46.0), [], "b"), window([fit], "c"))
        again = (section(drawn(), (45.95, 46.0), "a")[0], depth(drawn(), (None, 46.0), [], "b"), window([fit], "c"))
    assert once == again
    assert all("<dc:date>" not in unquote(each.source) and "Matplotlib v" not in unquote(each.source) for each in once)


def test_every_kind_of_line_has_its_own_style() -> None:
    """Without colour the section, the circle that enters and both limits are still told apart."""
    piece = Piece(0.0, 10.0, (46.03, 46.04), "outside of the part", True)
    with plain_settings():
        made = section(drawn(), (45.95, 46.0), "")[0], depth(drawn(), (45.95, 46.0), [piece], "")
    for svg in (unquote(each.source) for each in made):
        dashes = {each.partition(";")[0] for each in svg.split("stroke-dasharray: ")[1:]}
        assert len(dashes) >= 2
        assert "<pattern" in svg
