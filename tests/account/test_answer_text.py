"""The answer says what a shop needs, first things first."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from recommender.account.answer_side import bearing_text, make_lines
from recommender.account.answer_text import answer_lines, frame_reasons
from recommender.account.lines import plain
from recommender.account.words import frame_verdict
from recommender.deciding.answer import Advice, BearingShown, LandShown, MakeShown

CASES = Path(__file__).resolve().parents[2] / "cases"
JUDGED = sorted(
    f"{path.parent.name}/{path.stem}" for path in CASES.glob("*/*.yaml") if path.parent.name != "malformed"
)
Advised = Callable[[str], Advice]


def flat(advice: Advice) -> str:
    return " ".join(plain(answer_lines(advice)).split())


@pytest.mark.parametrize("name", JUDGED)
def test_every_answer_reads_at_80_columns_and_names_both_sides(name: str, advised: Advised) -> None:
    text = plain(answer_lines(advised(name)))
    assert text.isascii()
    assert max(map(len, text.splitlines())) <= 80
    assert text.index("FRAME: ") < text.index("\nDRIVE SIDE: ") < text.index("NON-DRIVE SIDE: ")
    for said in ("not a certification", "not legal advice", "Visual inspection cannot exclude hidden damage"):
        assert said in " ".join(text.split())


@pytest.mark.parametrize("name", JUDGED)
def test_both_sides_are_answered_within_one_screen(name: str, advised: Advised) -> None:
    text = plain(answer_lines(advised(name)))
    assert len(text.split("\nTO M")[0].splitlines()) <= 45


def test_stop_riding_comes_first(advised: Advised) -> None:
    text = flat(advised("refuse/gate-2021")).strip("= ")
    assert text.startswith("STOP RIDING: gate-2021")
    assert "Do not ride this frame until it has been inspected" in text


def test_a_refusal_for_size_or_form_does_not_wear_out_that_notice(advised: Advised) -> None:
    text = flat(advised("refuse/kiln-2014"))
    assert "STOP RIDING" not in text
    assert "Do not ride with the present bottom bracket" in text


def test_a_turned_cup_is_given_as_a_lathe_needs_it(advised: Advised) -> None:
    text = flat(advised("proceed/quay-2012"))
    make = advised("proceed/quay-2012").sides["drive"].make
    assert make is not None
    assert make.od_mm is not None
    middle = sum(make.od_mm) / 2
    assert f"Turn OD to {middle:.3f} +-0.005 mm (IT5) at 20 degC" in text


def test_lands_sleeve_and_wall() -> None:
    make = MakeShown(
        "cup", "cup", "", (46.02, 46.09), None, None, 0.005, (48.37, 48.38), {"od_mm": (48.17, 48.18)},
        (LandShown(0.0, 4.5, (46.087, 46.097)), LandShown(5.5, 10.0, (46.009, 46.019))), 2.1, None, "20 degC", (), True,
    )  # fmt: skip
    text = " ".join(plain(make_lines(make)).split())
    assert "Turn OD" not in text
    assert "Turn land 0 to 4.5 mm from the face: OD 46.092 +-0.005 mm at 20 degC" in text
    assert "Ream bore to 48.375 +-0.005 mm" in text
    assert "Sleeve outside 48.175 +-0.005 mm" in text
    assert "Wall left 2.10 mm" in text


def test_unknown_sizes_of_a_bearing_are_shown_as_unknown() -> None:
    assert bearing_text(BearingShown("6806", 30.0, 42.0, None, "C3")) == "6806, 30 x 42 x ? mm, clearance class C3"


def test_work_that_is_not_released_is_never_told_as_if_it_were(advised: Advised) -> None:
    text = flat(advised("proceed/orchard-2052"))
    assert "FRAME: go ahead, but only once what is listed before work is done" in text
    assert "Not released" in text


def test_a_held_side_says_so_before_its_part(advised: Advised) -> None:
    text = flat(advised("refuse/kiln-2014"))
    assert text.index("NON-DRIVE SIDE: held") < text.index("polymer cup 46 (in hand, no. 2)")


def test_what_to_do_is_said_once(advised: Advised) -> None:
    text = flat(advised("measure_again/attic-2035"))
    assert text.count("Look at every place of the shell with a lamp") == 1


def test_reasons_of_the_sides_are_left_to_the_sides(advised: Advised) -> None:
    advice = advised("refuse/kiln-2014")
    reasons = ("drive side: No remedy is left.", "Crack: not settled.", "Fibres: not settled.")
    changed = replace(advice, frame=replace(advice.frame, reasons=reasons))
    assert frame_reasons(changed) == ["Not settled: crack; fibres."]


def test_house_changes_and_an_edited_book_are_told(advised: Advised) -> None:
    advice = advised("proceed/lane-2041")
    change = {"kind": "change", "id": "polymer_cup.bar_low", "before": "0.0 um", "after": "5.0 um", "reason": "creaks",
              "by": "lead", "dated": "2026-01-01", "review_by": "2027-01-01", "looser": False}  # fmt: skip
    book = replace(advice.rulebook, edited=True)
    text = flat(replace(advice, house_changes=(change,), rulebook=book))
    assert "changed polymer_cup.bar_low: 0.0 um -> 5.0 um; creaks (lead, 2026-01-01, review by 2027-01-01)" in text
    assert "the shipped rules were edited here" in text


def test_unknown_verdicts_are_printed_as_they_are(advised: Advised) -> None:
    advice = advised("refuse/kiln-2014")
    assert frame_verdict(replace(advice, frame=replace(advice.frame, verdict="some_word"))) == "some word"


def test_form_that_nobody_read_is_never_shown_as_read(advised: Advised) -> None:
    text = flat(advised("measure_again/pier-2016"))
    assert text.count("assumed, not read") == 4
    assert "not read" not in flat(advised("proceed/lane-2041"))
