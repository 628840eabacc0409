"""The nearest change clears a lost remedy when the whole case is judged again, and one step less does not."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from recommender.advice import advise
from recommender.asking.changed_case import bore_moved, bore_rounder, bore_tapered, on_side, part_in_hand, part_of
from recommender.asking.hurdles import hurdles
from recommender.asking.nearest import Change, Lost, lost_remedies, nearest_changes
from recommender.asking.one_remedy import one_remedy
from recommender.asking.rerun import decided, with_readings
from recommender.bench.load import LoadedCase, load_case
from recommender.deciding.contest import CLEARED
from recommender.deriving.derived import SIDES
from recommender.reading.shipped import shipped_cases
from recommender.rulebook.book import Rulebook

WHOLE = ("proceed/lane-2041", "refuse/kiln-2014", "measure_again/barn-2050")


def case(name: str) -> LoadedCase:
    return load_case(shipped_cases() / f"{name}.yaml")


def outcome(loaded: LoadedCase, side: str, remedy: str, book: Rulebook) -> str:
    shown = advise(loaded, book).sides[side]  # type: ignore[index]
    return next(each.outcome for each in shown.remedies if each.id == remedy)


def found(name: str, side: str, remedy: str, book: Rulebook) -> Lost:
    made = nearest_changes(case(name), side, remedy, book)  # type: ignore[arg-type]
    assert made is not None
    return made


def only(lost: Lost, kind: str) -> Change:
    return next(each for each in lost.changes if each.kind == kind)


@pytest.mark.parametrize("name", WHOLE)
def test_one_remedy_alone_comes_out_as_in_the_whole_frame(name: str, book: Rulebook) -> None:
    loaded = case(name)
    for side, shown in decided(loaded, book).sides.items():
        for whole in shown.remedies:
            alone = one_remedy(loaded, side, whole.remedy.id, book)
            assert [(each.option.part, each.outcome) for each in alone.options] == [
                (each.option.part, each.outcome) for each in whole.options]  # fmt: skip
            for each in alone.options:
                assert (hurdles(each) == ()) == (each.outcome in CLEARED), (side, whole.remedy.id, each.option.part)


def test_a_larger_bore_clears_the_larger_cup_and_one_um_less_does_not(book: Rulebook) -> None:
    change = only(found("proceed/lane-2041", "drive", "oversize_cup", book), "bore")
    assert change.um > 0
    loaded = case("proceed/lane-2041")
    assert outcome(bore_moved(loaded, "drive", change.um), "drive", "oversize_cup", book) in CLEARED
    assert outcome(bore_moved(loaded, "drive", change.um - 1), "drive", "oversize_cup", book) not in CLEARED


def test_a_rounder_bore_clears_the_part_the_oval_stopped(book: Rulebook) -> None:
    """Oval 88.9 um with 4 um of doubt at 95 %, gate 25 um; at 99.5 %: 88.9 + 4.0 * 2.81 / 1.96 - 25 = 69.6."""
    change = only(found("refuse/kiln-2014", "drive", "press_as_is", book), "rounder")
    assert change.um == 70
    loaded, oval = case("refuse/kiln-2014"), decided(case("refuse/kiln-2014"), book).runs.sides["drive"]
    now = oval.general[0].facts["bore.ovality"].value
    assert now is not None
    assert outcome(bore_rounder(loaded, "drive", change.um / now), "drive", "press_as_is", book) in CLEARED
    assert outcome(bore_rounder(loaded, "drive", (change.um - 1) / now), "drive", "press_as_is", book) not in CLEARED


def test_less_taper_clears_the_straight_part(book: Rulebook) -> None:
    change = only(found("proceed/mill-2027", "drive", "press_as_is", book), "taper")
    assert change.um < 0
    loaded = case("proceed/mill-2027")
    ways = [bore_tapered(loaded, "drive", sign * abs(change.um)) for sign in (1, -1)]
    assert [outcome(each, "drive", "press_as_is", book) in CLEARED for each in ways].count(True) == 1


def test_another_part_clears_the_compound(book: Rulebook) -> None:
    change = only(found("proceed/lane-2041", "drive", "press_with_compound", book), "part")
    assert change.od is not None
    assert not change.in_hand
    loaded = case("proceed/lane-2041")
    larger = [part_in_hand(loaded, "drive", change.part, change.od + more) for more in (0.0, 0.001)]
    assert [outcome(each, "drive", "press_with_compound", book) in CLEARED for each in larger] == [True, False]


def test_the_part_in_hand_that_is_too_large_is_told_its_size(book: Rulebook, tmp_path: Path) -> None:
    text = (shipped_cases() / "proceed/lane-2041.yaml").read_text("utf-8")
    path = tmp_path / "lane.yaml"
    path.write_text(re.sub(r"od: 46\.0\d\d mm", "od: 46.110 mm", text), "utf-8")
    loaded = load_case(path)
    index = next(count for count, each in enumerate(loaded.case.parts) if each.side == "drive")
    result = one_remedy(loaded, "drive", "press_as_is", book)
    tight = next(each for each in result.options if "in hand" in each.option.part)
    assert tight.outcome == "ruled_out"
    assert {each.fact for each in hurdles(tight)} >= {"fit.tightest_interference"}
    smaller = part_of(loaded, index, 46.032)
    again = one_remedy(smaller, "drive", "press_as_is", book, tight.option.part)
    assert again.outcome in CLEARED


def test_carbon_is_never_cut_whatever_the_bore(book: Rulebook) -> None:
    lost = found("proceed/lane-2041", "drive", "ream", book)
    assert lost.changes == ()
    assert lost.barred_by == ("Carbon fibre is never cut",)


def test_nothing_is_held_up_against_damage(book: Rulebook) -> None:
    loaded = case("refuse/gate-2021")
    assert lost_remedies(loaded, advise(loaded, book), book) == ()


def test_a_cleared_remedy_needs_no_change(book: Rulebook) -> None:
    assert nearest_changes(case("proceed/lane-2041"), "drive", "press_as_is", book) is None


def test_the_same_case_gives_the_same_changes(book: Rulebook) -> None:
    loaded = case("proceed/lane-2041")
    assert nearest_changes(loaded, "drive", "oversize_cup", book) == nearest_changes(
        loaded, "drive", "oversize_cup", book)


def test_every_change_found_for_a_frame_clears_its_remedy(
    book: Rulebook, case_with: Callable[..., LoadedCase], square_two_point: str
) -> None:
    loaded = case_with(drive=square_two_point)
    lost = lost_remedies(loaded, advise(loaded, book), book, side="drive")
    assert [each.side for each in lost] == ["drive"] * len(lost)
    assert SIDES[0] == "drive"
    for each in lost:
        for change in each.changes:
            if change.kind == "reading":
                rows = [(plan.instrument, plan.depth, plan.turn, value)
                        for plan, value in zip(change.readings, change.shows, strict=True)]
                assert outcome(with_readings(loaded, "drive", rows), "drive", each.remedy, book) in CLEARED
            if change.kind == "bore":
                assert outcome(bore_moved(loaded, "drive", change.um), "drive", each.remedy, book) in CLEARED


def test_two_point_readings_clear_a_part_whose_oval_nobody_saw(
    book: Rulebook, case_with: Callable[..., LoadedCase], three_point_only: str
) -> None:
    loaded = case_with(drive=three_point_only)
    lost = nearest_changes(loaded, "drive", "press_as_is", book)
    assert lost is not None
    change = only(lost, "reading")
    assert {each.instrument for each in change.readings} == {"two"}
    rows = [(each.instrument, each.depth, each.turn, value)
            for each, value in zip(change.readings, change.shows, strict=True)]  # fmt: skip
    assert outcome(with_readings(loaded, "drive", rows), "drive", "press_as_is", book) in CLEARED


def test_an_answer_clears_what_only_waits_for_it(book: Rulebook, case_with: Callable[..., LoadedCase]) -> None:
    loaded = case_with()
    state = loaded.case.sides.drive.bore_state.model_copy(update={"coating": "unknown"})
    waiting = on_side(loaded, "drive", {"bore_state": state})
    lost = nearest_changes(waiting, "drive", "undersize_cup", book)
    assert lost is not None
    assert only(lost, "answer").answers == (("bore.coating", "none"),)
    assert outcome(waiting, "drive", "undersize_cup", book) not in CLEARED
    assert outcome(loaded, "drive", "undersize_cup", book) in CLEARED
