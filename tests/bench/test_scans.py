"""Scanned sections in a case: read, refused, imported."""

from collections.abc import Callable
from math import cos, radians, sin

import pytest

from recommender.bench.checks_of_scans import sections
from recommender.bench.readings import Readings
from recommender.bench.scan_import import is_scan, scan_in
from recommender.bench.scans import roundabout, scans
from recommender.ground.flaw import Flawed

TURNS = range(0, 360, 10)


def polar(radius: float = 22.986, turns=TURNS) -> list[list[float]]:
    return [[turn, radius] for turn in turns]


def block(**form) -> Readings:
    return Readings.model_validate({"instrument": "cmm", "unit": "mm", **form})


def found(points, form: str = "scan", struck=None) -> list[str]:
    side = {"readings": [{"instrument": "cmm", "unit": "mm", form: {"2": points}, "struck": struck or {}}]}
    return [each.message for each in sections({"sides": {"drive": side}})]


def test_turn_and_radius_are_the_same_points_as_x_and_y() -> None:
    pairs = [[22.986 * cos(radians(turn)), 22.986 * sin(radians(turn))] for turn in TURNS]
    one, two = (next(scans(each, ())) for each in (block(scan={"2": polar()}), block(points={"2": pairs})))
    assert [each for point in one.points for each in point] == pytest.approx([each for pair in pairs for each in pair])
    assert (one.depth, two.depth, one.instrument) == (2.0, 2.0, "cmm")
    assert two.path == ("points", "2")


def test_a_section_may_lie_anywhere_in_the_machine() -> None:
    off = [[310.0 + 22.986 * cos(radians(turn)), -95.0 + 22.986 * sin(radians(turn))] for turn in TURNS]
    assert found(off, "points") == []
    assert roundabout(tuple(map(tuple, off))).diameter == pytest.approx(45.972, abs=1e-6)


@pytest.mark.parametrize(("points", "told"), [
    (polar(turns=range(0, 360, 16)), "23 points"),
    (polar(turns=range(0, 300, 5)), "degrees without a point"),
    (polar(2.2986), "case.unit"),
    ([*polar(), [5, 22.686]], "off the others"),
])
def test_what_no_bore_or_no_whole_scan_is_is_refused(points, told: str) -> None:
    messages = found(points)
    assert len(messages) == 1
    assert told in messages[0] or told == "case.unit"


def test_a_struck_section_is_kept_and_not_checked() -> None:
    assert found(polar()[:9], struck={"2": "broken off"}) == []
    assert next(scans(block(scan={"2": polar()[:9]}, struck={"2": "broken off"}), ())).struck == "broken off"


def test_one_form_to_a_block() -> None:
    with pytest.raises(ValueError, match="one form"):
        block(scan={"2": polar()}, loose=[45.9])


HEAD = "side,instrument,depth_mm,turn_deg,radius_mm\n"
ROWS = "".join(f"drive,cmm,2,{turn},22.98{turn % 7}\n" for turn in TURNS)


def test_a_csv_of_points_becomes_a_block_and_nothing_is_lost() -> None:
    assert is_scan(HEAD)
    made = scan_in(HEAD + ROWS, "scan.csv").blocks.sides
    assert made["non_drive"] == []
    assert made["drive"][0]["scan"]["2"] == [[turn, pytest.approx(22.98 + turn % 7 / 1000)] for turn in TURNS]
    assert not is_scan("side,instrument,depth_mm,turn_deg,reading_mm,note\n")


@pytest.mark.parametrize(("text", "line", "column"), [
    (HEAD + "drive,cmm,2,0,2z\n" + ROWS, 2, 15),
    (HEAD + "drve,cmm,2,0,22.986\n" + ROWS, 2, 1),
    (HEAD + "drive,cmm,2,0\n" + ROWS, 2, 1),
    (HEAD + "drive,cmm,nan,0,22.986\n" + ROWS, 2, 11),
    (HEAD + ROWS[: ROWS.index("drive,cmm,2,200")], 2, 11),
])
def test_every_bad_cell_is_named_by_line_and_column(text: str, line: int, column: int) -> None:
    with pytest.raises(Flawed) as refused:
        scan_in(text, "scan.csv")
    assert [(each.place.line, each.place.column) for each in refused.value.flaws] == [(line, column)]


def test_an_instrument_the_case_does_not_have_is_named(load: Callable, valid: str) -> None:
    with pytest.raises(Flawed, match="no instrument"):
        scan_in(HEAD + ROWS, "scan.csv", load(valid))
