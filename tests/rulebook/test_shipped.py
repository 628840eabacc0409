"""The rules as shipped: they load, their seals hold, and breaking one of them stops the loading."""

import re
import shutil
import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from recommender.ground.flaw import Flaw, Flawed
from recommender.rulebook.folders import read_folder, shipped_folder
from recommender.rulebook.gather import gather
from recommender.rulebook.load import load
from recommender.rulebook.required import LIMITS
from recommender.rulebook.seals import SEALED, SEALED_IDS, SHIPPED

sys.path.insert(0, str(Path(__file__).parent))
import reseal

Edit = Callable[..., Path]


@pytest.fixture
def edited(tmp_path: Path) -> Edit:
    """Copy the shipped rules and change one file of them."""

    def make(file: str = "", old: str = "", new: str = "") -> Path:
        folder = tmp_path / "rules"
        shutil.copytree(shipped_folder(), folder)
        if file:
            text = (folder / file).read_text(encoding="utf-8")
            assert old in text
            (folder / file).write_text(text.replace(old, new, 1), encoding="utf-8")
        return folder

    return make


def flaws_of_loading(folder: Path) -> tuple[Flaw, ...]:
    with pytest.raises(Flawed) as caught:
        load(rules=folder)
    return caught.value.flaws


def test_the_shipped_rules_load_as_released() -> None:
    book = load()
    assert book.fingerprint == SHIPPED
    assert not book.edited
    assert not book.house_changes
    assert {rule.id for rule in book.rules if rule.sealed} == set(SEALED_IDS) == set(SEALED)


def test_labels_and_list_of_sealed_rules_agree() -> None:
    labelled = [entry.id for entry in gather(read_folder(shipped_folder())).rules.values() if entry.model.sealed]
    assert sorted(labelled) == list(SEALED_IDS) == sorted(SEALED_IDS)


def test_seals_are_fresh() -> None:
    text = reseal.SEALS.read_text(encoding="utf-8")
    assert reseal.resealed(text, shipped_folder()) == text


def test_a_comment_leaves_the_book_as_released(edited: Edit) -> None:
    assert not load(rules=edited("judgement/damage.yaml", "rules:\n", "# looked at again\nrules:\n")).edited


def test_an_edited_book_works_and_says_so(edited: Edit) -> None:
    book = load(rules=edited("judgement/geometry.yaml", "value: 12.5", "value: 12"))
    assert book.edited
    assert book.fingerprint != SHIPPED


@pytest.mark.parametrize(
    ("file", "old", "new", "check", "named"),
    [
        ("judgement/damage.yaml", "stance: stops_work", "stance: advises_against", "seal-changed", "damage.crack-seen"),
        ("judgement/damage.yaml", "id: damage.crack-seen", "id: damage.crack", "seal-missing", "damage.crack-seen"),
        ("judgement/evidence.yaml", "    value: 2\n", "    value: 1\n", "example", "expects holds"),
        ("remedies.yaml", "reversible: false", "reversible: true", "seal-changed", "safety.fibre-is-never-cut"),
        ("remedies.yaml", "consent: true", "consent: false", "seal-changed", "safety.irreversible-work"),
        ("words.yaml", "    - delamination\n", "", "seal-changed", "damage.layers-apart"),
        ("words.yaml", "cracks: [crack]", "cracks: []", "seal-changed", "damage.crack-seen"),
        ("instruments.yaml", "decides_fit: false", "decides_fit: true", "seal-changed", "instrument-too-coarse"),
        ("judgement/geometry.yaml", "    value: 25\n", "    value: 25.5\n", "seal-changed", "ovality-not-seen"),
    ],
)
def test_a_weakened_sealed_rule_stops_the_loading(
    edited: Edit, file: str, old: str, new: str, check: str, named: str
) -> None:
    flaws = flaws_of_loading(edited(file, old, new))
    assert any(each.check == f"rules.{check}" and named in f"{each.message} {each.advice}" for each in flaws), flaws


def test_a_missing_file_stops_the_loading(edited: Edit) -> None:
    folder = edited()
    (folder / "judgement" / "safety.yaml").unlink()
    named = {each.message for each in flaws_of_loading(folder)}
    assert "the sealed rule `safety.fibre-is-never-cut` is missing" in named


def test_a_limit_that_formulas_read_stays(edited: Edit) -> None:
    folder = edited("judgement/shell.yaml", "assumption.wall:", "assumption.walls:")
    flaws = flaws_of_loading(folder)
    assert [(each.check, str(each.place)) for each in flaws] == [("rules.missing", "rules:1:1")]
    assert "`assumption.wall`" in flaws[0].message


def test_a_folder_that_is_not_there() -> None:
    assert "there is no such folder" in flaws_of_loading(Path("nowhere"))[0].message


def test_house_folder_over_the_shipped_rules(rules_folder: Callable[..., Path]) -> None:
    act = """\
house:
  - change: polymer_cup.bar_low
    to: 10 um
    was: 0 um
    reason: Two creaking returns in autumn
    by: workshop lead
    dated: 2026-03-01
    review_by: 2027-03-01
"""
    book = load(house=rules_folder("house", cups=act), on=date(2026, 5, 4))
    assert book.limits["polymer_cup.bar_low"].value == 10
    assert [change.id for change in book.house_changes] == ["polymer_cup.bar_low"]
    assert book.fingerprint != SHIPPED
    assert not book.edited


def test_a_flaw_in_the_house_is_never_passed_over(rules_folder: Callable[..., Path]) -> None:
    for text in ("house:\n  - {change: polymer_cup.bar_low}\n", "house: [\n", "house:\n"):
        with pytest.raises(Flawed) as caught:
            load(house=rules_folder("house", cups=text))
        assert all(each.place.file == "house/cups.yaml" for each in caught.value.flaws)


def test_a_house_folder_that_is_empty_or_missing_is_refused(tmp_path: Path) -> None:
    for folder in (tmp_path, tmp_path / "nowhere"):
        with pytest.raises(Flawed):
            load(house=folder)


def test_every_limit_that_formulas_name_is_required() -> None:
    deriving = Path(__file__).resolve().parents[2] / "recommender" / "deriving"
    text = "\n".join(path.read_text(encoding="utf-8") for path in sorted(deriving.glob("*.py")))
    named = set(re.findall(r'book\.limits\["([a-z_.0-9]+)"\]', text)) | set(re.findall(r'"limit:([a-z_.0-9]+)"', text))
    assert named
    assert named <= set(LIMITS)
