"""A complete case loads, and its readings come out one by one."""

import re
from collections.abc import Callable

import pytest

from recommender.bench.load import FlawedCase, LoadedCase
from recommender.bench.sides import readings_of, spans_of

Load = Callable[[str], LoadedCase]


def test_a_complete_case_loads_without_warning(valid: str, load: Load) -> None:
    loaded = load(valid)
    assert loaded.case.case == "lane-2041"
    assert loaded.warnings == ()


def test_lengths_come_out_in_millimetres(valid: str, load: Load) -> None:
    bench = load(valid).case.bench
    mic = bench.instrument("mic")
    assert mic is not None
    assert mic.error_limit == pytest.approx(0.004)
    assert bench.instrument("nobody") is None


def test_a_measured_scalar_says_by_what_or_nothing(valid: str, load: Load) -> None:
    plain, by_two = (part.od for part in load(valid).case.parts)
    assert plain is not None
    assert (plain.value, plain.by, plain.repeats, plain.within) == (
        46.032,
        None,
        None,
        None,
    )
    assert by_two is not None
    assert (by_two.value, by_two.by, by_two.repeats) == (46.03, "two", 3)


def test_a_measured_scalar_may_state_its_spread(valid: str, load: Load) -> None:
    wall = load(valid.replace("wall: 3.0 mm", "wall: {value: 3.0 mm, within: 50 um}")).case.frame.wall
    assert wall is not None
    assert wall.within == pytest.approx(0.05)


def test_every_reading_of_a_grid_comes_out_with_turn_and_depth(valid: str, load: Load) -> None:
    read = readings_of(load(valid).case.sides.drive, ("sides", "drive"))
    assert len(read) == 9 + 6
    assert (read[4].value, read[4].instrument, read[4].depth, read[4].turn) == (45.972, "mic", 5.0, 40.0)
    assert read[4].path == ("sides", "drive", "readings", 0, "at", "5", 1)


def test_repeats_strikes_and_loose_readings_keep_their_values(valid: str, load: Load) -> None:
    read = readings_of(load(valid).case.sides.non_drive)
    assert [(point.value, point.repeat) for point in read[:2]] == [(45.978, 0), (45.979, 1)]
    assert [(point.value, point.struck) for point in read if point.struck] == [(45.982, "slipped")]
    assert (read[-1].value, read[-1].depth, read[-1].turn) == (45.98, None, None)


def test_spans_come_out_with_and_without_depth(valid: str, load: Load) -> None:
    text = valid.replace("loose: [45.98]", "spans: [45.975, 45.984]")
    deep, somewhere = spans_of(load(text).case.sides.non_drive)
    assert (deep.smallest, deep.largest, deep.depth) == (45.976, 45.983, 2.0)
    assert (somewhere.smallest, somewhere.largest, somewhere.depth) == (45.975, 45.984, None)


@pytest.mark.parametrize(
    "struck", ["struck: {8: slipped}", "struck: {8.0: {40.0: slipped}}", "struck_all: slipped"]
)
def test_a_strike_names_a_turn_a_depth_or_all(valid: str, load: Load, struck: str) -> None:
    read = readings_of(load(valid.replace("struck: {8: {40: slipped}}", struck)).case.sides.non_drive)
    assert "slipped" in {point.struck for point in read}
    assert read[-1].struck is None


def test_a_side_that_was_not_read_says_why(valid: str, load: Load) -> None:
    head, rest = valid.split("  non_drive:\n")
    tail = rest[rest.index("alignment:") :]
    side = load(head + "  non_drive: {readings: none, reason: cracked}\n" + tail).case.sides.non_drive
    assert not side.was_read
    assert side.reason == "cracked"
    with pytest.raises(FlawedCase, match="reason"):
        load(head + "  non_drive: {readings: none}\n" + tail)


def test_what_is_left_out_is_unknown_and_never_fine(valid: str, load: Load) -> None:
    text = re.sub(r"^(history|alignment|expect):.*\n(?: .*\n)*", "", valid, flags=re.MULTILINE)
    text = text.replace("  insert_test: unknown\n", "").replace("insert: none", "insert: unknown")
    case = load(
        text.replace("    bore_state: {cleaned: yes_cleaned, coating: none, cut_before: uncut}\n", "")
    ).case
    state = case.sides.drive.bore_state
    assert case.alignment is None
    assert case.expect is None
    assert case.history.cups is None
    assert {case.history.crash, case.history.warranty, case.damage.insert_test, case.frame.insert} == {
        "unknown"
    }
    assert {state.cleaned, state.coating, state.cut_before, case.sides.drive.press.feel} == {"unknown"}


def test_a_place_looked_at_in_an_unknown_way_was_not_looked_at(valid: str, load: Load) -> None:
    damage = load(valid.replace("lip: eye", "lip: unknown")).case.damage
    assert damage.ways("lip") == ()
    assert damage.ways("insert_edge") == ()
    assert damage.ways("bore") == ("lamp",)
    assert damage.ways("joint") == ("eye", "tap")


@pytest.mark.parametrize(("slip", "words"), [("46.473", "thimble"), ("45.73", "digit")])
def test_a_reading_far_off_its_neighbours_is_a_warning(valid: str, load: Load, slip: str, words: str) -> None:
    (warning,) = load(valid.replace("45.971, 45.973, 45.972", f"45.971, {slip}, 45.972")).warnings
    assert warning.level == "warning"
    assert words in warning.advice
