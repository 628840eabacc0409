"""Bench sheets as CSV: written, filled in, read back; nothing lost, every bad cell named by line and column."""

from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recommender.bench.load import LoadedCase, load_case
from recommender.bench.readings import Readings, points, spans
from recommender.bench.sheet_blocks import blocks_of, blocks_text
from recommender.bench.sheet_import import read_sheet, sheet_in
from recommender.bench.sheets import BenchSheet, SheetRow, sheet_of, write_sheet
from recommender.ground.flaw import Flawed
from recommender.reading.yaml_reader import read_text

HEAD = "case,lane-2041\nunit,mm\nside,instrument,depth_mm,turn_deg,reading_mm,note\n"
CASES = sorted(Path(__file__).parents[2].joinpath("cases").glob("[mpr]*/*.yaml"))
CASES = [path for path in CASES if path.parent.name != "malformed"]

texts = st.text(st.characters(codec="utf-8", exclude_characters="\0"), max_size=12).map(str.strip).filter(
    lambda text: not text.casefold().startswith("struck:") and "|" not in text)
tenths = st.integers(0, 99).map(lambda tenth: tenth / 10)
micrometres = st.integers(45900, 46100).map(lambda um: um / 1000)
at_turn = st.builds(
    SheetRow, st.sampled_from(["drive", "non_drive"]), st.sampled_from(["mic", "two"]), tenths,
    st.sampled_from([0.0, 22.5, 40.0, 80.0]), st.none() | micrometres, st.sampled_from(["", "slipped", "hair, hit"]),
    texts,
)
loose = at_turn.map(lambda row: row._replace(depth=None, turn=None))
span = st.tuples(at_turn, st.booleans()).map(
    lambda given: [
        given[0]._replace(turn=end, reading=None if given[0].reading is None else given[0].reading + add,
                          depth=None if given[1] else given[0].depth)
        for end, add in (("smallest", 0.0), ("largest", 0.004))
    ])
rows = st.lists(at_turn.map(lambda row: [row]) | loose.map(lambda row: [row]) | span, max_size=12).map(
    lambda parts: tuple(row for part in parts for row in part))


@given(rows)
def test_a_sheet_survives_being_written_and_read(made: tuple[SheetRow, ...]) -> None:
    sheet = BenchSheet("lane-2041", made)
    assert sheet_in(write_sheet(sheet), "s.csv").sheet == sheet


@given(rows)
def test_blocks_hold_every_reading_strike_and_note(made: tuple[SheetRow, ...]) -> None:
    blocks = blocks_of(BenchSheet("x", made))
    found: list[tuple[object, ...]] = []
    notes = ""
    for side, given_blocks in blocks.sides.items():
        for raw in given_blocks:
            block = Readings.model_validate(raw)
            notes += block.note
            found += [(side, each.instrument, each.depth, each.turn, each.value, each.struck or "")
                      for each in points(block, ())]
            found += [(side, each.instrument, each.depth, end, value, each.struck or "")
                      for each in spans(block, ())
                      for end, value in (("smallest", each.smallest), ("largest", each.largest))]
    wanted = [(row.side, row.instrument, row.depth, row.turn, row.reading, row.struck)
              for row in made if row.reading is not None]
    assert sorted(map(repr, found)) == sorted(map(repr, wanted))
    assert sorted(blocks.rows.values()) == [index for index, row in enumerate(made) if row.reading is not None]
    taken_by = {(row.side, row.instrument) for row in made if row.reading is not None}
    assert all(row.note in notes for row in made if (row.side, row.instrument) in taken_by)


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_every_shipped_case_comes_back_from_its_sheet(path: Path) -> None:
    loaded = load_case(path)
    sheet = sheet_of(loaded.case)
    imported = sheet_in(write_sheet(sheet), "s.csv", loaded)
    assert imported.sheet == sheet
    text = blocks_text(imported.blocks)
    assert read_text(text, "sheet.yaml").data["sides"].keys() == {"drive", "non_drive"}


@pytest.mark.parametrize(
    ("lines", "places", "words"),
    [
        ("drive,mic,2,0,45.972,\ndrive,mic,2,40,45972,", ["5:16"], "micrometres"),
        ("drive,mic,2,0,1.8101,", ["4:15"], "inches"),
        ("drive,mic,2,0,4.5972,", ["4:15"], "lost digit"),
        ('drive,mic,2,0,"45,972",', ["4:15"], "decimal comma"),
        ("drive,mic,2,0,45.972 mm,", ["4:15"], "unit"),
        ("drive,mic,2,0,45.97x,", ["4:15"], "plain number"),
        ("drvie,mic,2,0,45.972,", ["4:1"], "Did you mean `drive`"),
        ("drive,mic,-2,0,45.972,", ["4:11"], "plain number"),
        ("drive,mic,2,400,45.972,", ["4:13"], "full turn"),
        ("drive,mic,2,,45.972,", ["4:13"], "go together"),
        ("drive,mic,2,smallest,45.972,", ["4:13"], "alone"),
        ("drive,mic,2,smallest,45.974,\ndrive,mic,2,largest,45.972,", ["4:22"], "larger"),
        ("drive,mic,2,0,45.972,note,more", ["4:27"], "last column"),
        ("drive,mic,2,0,45.972,\ndrive,mic,2,40,49.972,", ["5:16"], "off the middle"),
        ('drive,mic,2,0,45.972,"two\nlines"\ndrive,mic,2,zero,45x,', ["6:13", "6:18"], "plain number"),
    ],
)
def test_every_bad_cell_is_named_by_line_and_column(lines: str, places: list[str], words: str) -> None:
    with pytest.raises(Flawed) as refused:
        sheet_in(HEAD + lines + "\n", "s.csv")
    assert [f"{each.place.line}:{each.place.column}" for each in refused.value.flaws] == places
    assert words in str(refused.value)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (HEAD.replace("unit,mm", "unit,inch") + "drive,mic,2,0,45.972,\n", "not in `inch`"),
        (HEAD.replace("unit,mm", "units,mm"), "Did you mean `unit`"),
        ("drive,mic,2,0,45.972,\n", "names of the columns"),
        (HEAD.replace("turn_deg", "angle"), "not the columns"),
        (HEAD + 'drive,mic,2,0,45.972,"open\n', "no CSV"),
        ("", "names of the columns"),
    ],
)
def test_a_text_that_is_no_sheet_is_refused(text: str, words: str) -> None:
    with pytest.raises(Flawed) as refused:
        sheet_in(text, "s.csv")
    assert words in str(refused.value)


def test_sheets_of_other_spreadsheets_are_read() -> None:
    sheet = sheet_in("\ufeffcase;a\r\n".lstrip("\ufeff") + HEAD.split("\n")[2].replace(",", ";")
                     + "\r\nDrive;mic;2;0;45.972;\r\n;;;;;\r\n", "s.csv").sheet
    assert sheet == BenchSheet("a", (SheetRow("drive", "mic", 2.0, 0.0, 45.972),))


def test_a_sheet_is_held_against_its_case(valid: str, load: Callable[[str], LoadedCase], tmp_path: Path) -> None:
    loaded = load(valid)
    path = tmp_path / "sheet.csv"
    path.write_text(HEAD.replace("lane-2041", "other") + "drive,mike,2,0,45.972,\ndrive,mic,12,0,45.972,\n"
                    "drive,mic,2,0,52.000,\ndrive,mic,2,40,52.001,\n", "utf-8")
    with pytest.raises(Flawed) as refused:
        read_sheet(path, loaded)
    assert [(each.check, each.place.line, each.place.column) for each in refused.value.flaws] == [
        ("sheet.case", 1, 6), ("sheet.cell", 4, 7)]
    path.write_text(HEAD + "drive,mic,12,0,45.972,\ndrive,mic,2,0,52.000,\n", "utf-8")
    with pytest.raises(Flawed) as refused:
        read_sheet(path, loaded)
    assert ("case.depth", 4, 11) in [(e.check, e.place.line, e.place.column) for e in refused.value.flaws]
    assert ("case.range", 5, 15) in [(e.check, e.place.line, e.place.column) for e in refused.value.flaws]


def test_struck_and_repeated_readings_stay(valid: str, load: Callable[[str], LoadedCase]) -> None:
    rows = sheet_of(load(valid).case).rows
    assert SheetRow("non_drive", "mic", 8.0, 40.0, 45.982, "slipped") in rows
    assert [row.reading for row in rows if row[:4] == ("non_drive", "mic", 2.0, 0.0)] == [45.978, 45.979]
