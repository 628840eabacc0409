"""How much a case or sheet may hold: the most is read, one more is refused in words, and neither takes long."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from math import cos, pi, sin
from time import thread_time

import pytest

from recommender.advice import advise
from recommender.bench.checks_of_readings import MOST_READINGS
from recommender.bench.checks_of_scans import MOST_SECTIONS
from recommender.bench.load import FlawedCase, LoadedCase
from recommender.bench.scan_import import is_scan, scan_in
from recommender.bench.sheet_cells import MOST_CELLS, MOST_LINES
from recommender.bench.sheet_import import MOST_ROWS, sheet_in
from recommender.bench.sheets import COLUMNS
from recommender.ground.flaw import MOST_FLAWS, Flawed
from recommender.reading.files import LARGEST_BYTES
from recommender.reading.tree import MOST_STEPS
from recommender.rulebook.book import Rulebook

Load = Callable[[str], LoadedCase]
# One second on a machine with nothing else to do, and room for a slow one; a few of these took minutes once.
SECONDS = 8.0
ROW = "turns: [0, 40, 80]"
GAUGES, CUPS = "    gauges:\n", "cups: ["
SHEET, SCAN = ",".join(COLUMNS) + "\n", "side,instrument,depth_mm,turn_deg,radius_mm\n"
REPEATS = "[45.974, 45.970, 45.975]"


@contextmanager
def quick() -> Iterator[None]:
    start = thread_time()
    yield
    assert thread_time() - start < SECONDS


def first(load: Load, text: str) -> str:
    """Return the first flaw for which a case is refused, which must not take long."""
    with quick(), pytest.raises(FlawedCase) as refused:
        load(text)
    # Checks and models are told apart and each stop at so many.
    assert len(refused.value.flaws) <= 2 * (MOST_FLAWS + 1)
    assert all(each.advice for each in refused.value.flaws)
    return str(refused.value.flaws[0])


def repeated(valid: str, count: int) -> str:
    """Return the case with one cell read so often that its side holds this many readings: fourteen stand there."""
    cell = ", ".join(["45.974"] * (count - 14))
    return valid.replace(REPEATS, f"[[{cell}], 45.970, 45.975]", 1)


def more(valid: str, after: str, one: str, count: int) -> str:
    assert after in valid
    return valid.replace(after, after + one * count, 1)


LISTS = {
    "parts": ("parts:\n", "  - {part: polymer_cup_46, side: drive, od: 46.032 mm}\n", 2, 60),
    "gauges": (GAUGES, "      - {kind: go, size: 45.950 mm, result: enters_fully}\n", 2, 60),
    "signs": ("signs: [", "{sign: lacquer_scratch, where: shell_outside, side: drive, length: 22 mm}, ", 1, 200),
    "openings": ("openings: [", "{kind: port, side: drive, size: 8 mm, ligament: 22 mm}, ", 1, 60),
    "cups": (CUPS, "{material: polymer, fitted: 2, months: 26, od: 46.03 mm}, ", 1, 60),
}


@pytest.mark.parametrize("name", LISTS)
def test_a_list_as_long_as_it_may_be_is_read_and_one_longer_is_not(valid: str, load: Load, name: str) -> None:
    after, one, there, most = LISTS[name]
    load(more(valid, after, one, most - there))
    assert f"at most {most} entries may stand here" in first(load, more(valid, after, one, most - there + 1))
    first(load, more(valid, after, one, 3_000))


def numbered(valid: str, after: str, one: str, count: int) -> str:
    return valid.replace(after, after + "".join(one.replace("NUMBER", str(each)) for each in range(count)), 1)


@pytest.mark.parametrize(
    ("after", "one", "there", "most"),
    [
        ("instruments:\n", "    - {id: iNUMBER, kind: two_point_gauge, range: [35 mm, 60 mm]}\n", 2, 30),
        ("photos: {", "qNUMBER: {file: p.jpg, caption: x}, ", 1, 200),
    ],
    ids=["instruments", "photographs"],
)
def test_names_are_bounded_too(valid: str, load: Load, after: str, one: str, there: int, most: int) -> None:
    load(numbered(valid, after, one, most - there))
    assert f"at most {most} entries" in first(load, numbered(valid, after, one, most - there + 1))
    first(load, numbered(valid, after, one, 3_000))


def test_a_side_holds_so_many_readings_and_no_more(valid: str, load: Load, book: Rulebook) -> None:
    most = load(repeated(valid, MOST_READINGS))
    with quick():
        assert advise(most, book).frame.verdict
    assert f"{MOST_READINGS + 1} readings on one side" in first(load, repeated(valid, MOST_READINGS + 1))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (ROW, "turns: [" + ", ".join(f"{each / 100:g}" for each in range(12_000)) + "]"),
        (ROW, "turns: [" + "0, " * 12_000 + "80]"),
        ("at: {2:", "at: {" + ", ".join(f"{2.1 + each / 10_000:.4f}: [45.9]" for each in range(6_000)) + ", 2:"),
        ("spans: {2: [45.976, 45.983]}",
         "spans: {" + ", ".join(f"{each / 1_000:.3f}: [45.97, 45.98]" for each in range(6_000)) + "}"),
        ("struck: {8: {40: slipped}}",
         "struck: {8: {" + ", ".join(f"{each / 100:g}: slipped" for each in range(12_000)) + "}}"),
        (GAUGES, GAUGES + "      - {kind: no_go, size: 45.940 mm, result: did_not_enter}\n" * 3_000),
        ("instrument: mic", "instrument: " + "m" * 100_000),
    ],
    ids=["turns", "the same turn", "depths", "spans", "strikes", "no-go gauges", "a long name"],
)  # fmt: skip
def test_thousands_of_one_thing_are_refused_in_no_time(valid: str, load: Load, old: str, new: str) -> None:
    assert old in valid
    first(load, valid.replace(old, new, 1))


@pytest.mark.parametrize(
    "text",
    [
        "a: [" + "1," * 490_000 + "1]\n",
        "a: [" + "1," * 490_000,
        "a: [" + ("[" * 20 + "]" * 20 + ",") * 24_000 + "\n",
        "".join(f"k{each}: 1\n" for each in range(90_000)) + "x: ]\n",
        "damage: {signs: [" + "crack," * 160_000 + "]}\n",
        "sides: {" + "".join(f"k{each}: 1, " for each in range(80_000)) + "}\n",
        '"a":' * 240_000,
        "a: |\n" * 190_000,
        "%a\n" * 320_000,
    ],
    ids=["list", "never closed", "deep and wide", "syntax at the end", "signs", "keys", "colons", "blocks", "percent"],
)
def test_a_file_as_large_as_is_opened_and_full_of_something_is_refused(load: Load, text: str) -> None:
    assert 0.8 * LARGEST_BYTES < len(text) <= LARGEST_BYTES
    first(load, text)


def test_no_more_values_than_any_sheet_has(load: Load, valid: str) -> None:
    # The brackets count, those of the whole file too, and the key.
    longest = "x: [" + "1," * (MOST_STEPS - 5) + "]\n"
    assert "is missing" in first(load, longest)
    assert f"more than {MOST_STEPS} keys" in first(load, longest.replace("1,", "1,1,", 1))


def circle(count: int) -> str:
    turns = (2 * pi * each / count for each in range(count))
    return ", ".join(f"[{22.986 * cos(turn):.4f}, {22.986 * sin(turn):.4f}]" for turn in turns)


def scanned(valid: str, sections: int, count: int) -> str:
    kind = "    - {id: cmm, kind: coordinate_scan, error_limit: 2 um, resolution: 0.1 um}\n"
    rows = ", ".join(f"{1 + 8 * each / sections:.3f}: [{circle(count)}]" for each in range(sections))
    return valid.replace("instruments:\n", "instruments:\n" + kind, 1).replace(
        "    readings:\n", f"    readings:\n      - {{instrument: cmm, unit: mm, points: {{{rows}}}}}\n", 1)


@pytest.mark.parametrize(("sections", "count"), [(5, 2_000), (MOST_SECTIONS, 100)])
def test_a_scan_of_many_points_is_read_and_judged(
    valid: str, load: Load, book: Rulebook, sections: int, count: int
) -> None:
    with quick():
        assert advise(load(scanned(valid, sections, count)), book).frame.verdict


def test_more_sections_than_can_be_weighed_are_refused(valid: str, load: Load) -> None:
    assert f"{MOST_SECTIONS + 1} scanned sections" in first(load, scanned(valid, MOST_SECTIONS + 1, 30))


def told(text: str) -> str:
    """Return the flaws for which a sheet or scan is refused, which must not take long."""
    with quick(), pytest.raises(Flawed) as refused:
        (scan_in if is_scan(text) else sheet_in)(text, "sheet.csv")
    assert len(refused.value.flaws) <= MOST_FLAWS + 1
    assert all(each.advice and each.place.line >= 1 for each in refused.value.flaws)
    return str(refused.value)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (SHEET + "drive,mic,2,0,45.9,\n" * (MOST_ROWS + 1), f"more than {MOST_ROWS} readings"),
        (SHEET + "x,y,z,u,v,w\n" * 15_000, f"more than {MOST_FLAWS} flaws"),
        ("a,b\n" * 19_000, "unknown heading"),
        (SHEET + "\n" * MOST_LINES, f"more than {MOST_LINES} lines"),
        (SHEET + "," * MOST_CELLS + "\n", f"more than {MOST_CELLS} cells"),
        (SHEET + "," * 900_000 + "\n", f"more than {MOST_CELLS} cells"),
        (SHEET + "\r" * 900_000, f"more than {MOST_LINES} lines"),
        (SHEET + "drive,mic,2,smallest,45.9,\n" * 1_900, "stands here alone"),
        (SHEET + "drive,mic,2,0," + "9" * 400 + ",\n", "is not a plain number"),
        (SCAN + "drive,cmm,x,0,y\n" * 19_000, f"more than {MOST_FLAWS} flaws"),
        (SCAN + "".join(f"drive,cmm,{each / 1000:.3f},{each % 360},23.0\n" for each in range(19_000)), "a scan has"),
        (SCAN + "drive,cmm,-5,0,23\n", "is no"),
        (SCAN + "drive,cmm,1_0,0,23\n", "is no"),
        (SCAN + "drive,cmm,\u0663,0,23\n", "is no"),
        (SCAN + "drive,cmm,2,0,1e400\n", "is no"),
    ],
    ids=["rows", "bad rows", "headings", "lines", "cells", "commas", "carriage returns", "half spans", "digits",
         "bad points", "depths", "negative depth", "underscore", "foreign digit", "overflow"],
)  # fmt: skip
def test_sheets_and_scans_are_bounded(text: str, said: str) -> None:
    assert said in told(text)


def test_a_sheet_as_long_as_it_may_be_is_read() -> None:
    assert len(sheet_in(SHEET + "drive,mic,2,0,45.9,\n" * MOST_ROWS, "s.csv").sheet.rows) == MOST_ROWS


def test_a_quote_inside_a_cell_is_a_sign_like_any_other() -> None:
    (row,) = sheet_in(SHEET + 'drive,a"b,2,0,45.9,"5"" deep, left"\n', "s.csv").sheet.rows
    assert (row.instrument, row.note) == ('a"b', '5" deep, left')
    with pytest.raises(Flawed) as refused:
        sheet_in(SHEET + 'drive,a"b,2,0,45x,\n', "s.csv")
    assert [str(each.place) for each in refused.value.flaws] == ["s.csv:2:15"]


@pytest.mark.parametrize("turn", ["0", "40"])
def test_the_first_strike_that_fits_is_the_one_told(valid: str, load: Load, turn: str) -> None:
    struck = "struck: {8.0: {every: dirt, 40: slipped}, 8: {40.0: again}}"
    side = load(valid.replace("struck: {8: {40: slipped}}", struck, 1)).case.sides.non_drive
    assert side.readings[0].strike("8", float(turn)) == "dirt"
    assert side.readings[0].strike("2", float(turn)) is None


def test_a_crack_is_told_even_of_a_file_that_is_too_long_to_be_read(load: Load) -> None:
    text = "x: [" + "1," * MOST_STEPS + "]\ndamage: {signs: [{sign: crack}]}\n"
    with quick(), pytest.raises(FlawedCase) as refused:
        load(text)
    assert refused.value.signs == ("crack",)
