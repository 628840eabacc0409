"""The explanation reaches from the verdict to the readings."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from recommender.account.lines import plain
from recommender.account.stoppers import stoppers
from recommender.account.why_text import why_lines
from recommender.deciding.answer import Advice

CASES = Path(__file__).resolve().parents[2] / "cases"
JUDGED = sorted(
    f"{path.parent.name}/{path.stem}" for path in CASES.glob("*/*.yaml") if path.parent.name != "malformed"
)
Advised = Callable[[str], Advice]


def flat(advice: Advice, side: str | None = None, remedy: str | None = None) -> str:
    return " ".join(plain(why_lines(advice, side, remedy)).split())


@pytest.mark.parametrize("name", JUDGED)
def test_every_explanation_reads_at_80_columns(
    name: str, advised: Advised, too_long: Callable[[str], list[str]]
) -> None:
    text = plain(why_lines(advised(name)))
    assert text.isascii()
    assert too_long(text) == []


def test_one_oval_bore_is_told_once_with_all_it_stops(advised: Advised) -> None:
    found = stoppers(advised("refuse/kiln-2014").sides["drive"])
    assert [each.finding.rule for each in found] == ["form.too-oval", "safety.fibre-is-never-cut"]
    assert len(found[0].remedies) == 5
    assert len(found[1].remedies) == 2


def test_every_refusal_is_explained(advised: Advised) -> None:
    for name in JUDGED:
        for side in advised(name).sides.values():
            if side.verdict == "refuse":
                assert stoppers(side), name


def test_the_deciding_number_carries_limit_source_and_distance(advised: Advised) -> None:
    text = flat(advised("refuse/kiln-2014"), "drive")
    meaning = "largest out-of-round with which a plain round part is pressed"
    assert f"Applies if above 25.0 um (form.ovality_gate); limit: {meaning}; common practice" in text
    assert re.search(r"Distance past the limit by \d+\.\d um, \d+ times its spread", text)
    assert "Rule form.too-oval (shipped rule)" in text


def test_the_walk_ends_at_the_readings(advised: Advised) -> None:
    text = flat(advised("refuse/kiln-2014"), "drive")
    walk = text.split("DOWN TO THE READINGS, drive side")[1]
    assert "depth 2: 46.030, 45.986, 45.940, 45.985" in walk
    assert re.search(r"kiln-2014\.yaml:\d+\]", walk)
    assert "limit form.ovality_gate: 25.0 um" in walk


def test_no_id_without_its_name(advised: Advised) -> None:
    walk = flat(advised("proceed/lane-2041")).split("DOWN TO THE READINGS")[1]
    assert "mean interference [fit.mean_interference]:" in walk
    assert "mean bore diameter at 20 degC [bore.mean_diameter]:" in walk


def test_a_chosen_remedy_shows_the_limits_it_keeps(advised: Advised) -> None:
    text = flat(advised("proceed/lane-2041"), "drive")
    assert "barred below 0.0 um (polymer_cup.bar_low): clear by" in text
    assert "aluminium_cup_in_metal" not in text.split("What else was considered")[0]


def test_nothing_is_held_up_against_damage(advised: Advised) -> None:
    text = flat(advised("refuse/gate-2021"))
    assert text.strip("= ").startswith("STOP RIDING")
    assert "No remedy is weighed against damage" in text
    assert "cleared" not in text


def test_one_side_and_one_remedy(advised: Advised) -> None:
    advice = advised("refuse/kiln-2014")
    assert "NON-DRIVE SIDE" not in flat(advice, "drive")
    text = flat(advice, "drive", "ream")
    assert "Ream the metal bore, then press the part: ruled out" in text
    assert "safety.fibre-is-never-cut" in text
    assert "sleeve" not in text.split("DOWN TO")[0].lower()


@pytest.mark.parametrize(("side", "remedy"), [("left", None), ("drive", "hammer")])
def test_unknown_side_or_remedy(side: str, remedy: str | None, advised: Advised) -> None:
    with pytest.raises(KeyError):
        why_lines(advised("refuse/kiln-2014"), side, remedy)


def test_causes_are_weighed_in_both_directions(advised: Advised) -> None:
    text = flat(advised("proceed/quay-2012"), "drive")
    assert "What signs, symptoms and sizes are consistent with:" in text
    assert "- for:" in text
    assert "- against:" in text
    assert "caused by" not in text
