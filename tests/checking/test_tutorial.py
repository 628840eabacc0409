"""The house folder to begin with and the tutorial's house rule: checked, covered, in force."""

import re
from datetime import date
from pathlib import Path

import pytest

from recommender.checking.check import check_folders
from recommender.rulebook.load import load
from recommender.rulebook.starter import starter_files
from recommender.trials.coverage import coverage

GUIDE = (Path(__file__).resolve().parents[2] / "DEVELOPERS.md").read_text("utf-8")
TODAY = date(2026, 11, 25)


@pytest.fixture
def house(tmp_path: Path) -> Path:
    for name, text in starter_files(load(), TODAY).items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    return tmp_path


def flaws(house: Path) -> list[str]:
    return [str(each) for each in check_folders(house).flaws if each.level != "note"]


def test_the_folder_to_begin_with_checks_clean(house: Path) -> None:
    assert flaws(house) == []


def test_it_changes_one_limit_and_adds_a_rule_and_a_part(house: Path) -> None:
    book = load(house, on=TODAY)
    kinds = sorted((each.kind, each.id) for each in book.house_changes)
    assert kinds == [
        ("add", "house.polymer_cup_46_03"), ("add", "house.sides-apart"), ("add", "house.sides.apart"),
        ("change", "polymer_cup.aim_low"),
    ]  # fmt: skip
    assert book.limits["polymer_cup.aim_low"].value > load().limits["polymer_cup.aim_low"].value
    assert "house.polymer_cup_46_03" in book.standards["pf30"].parts


def test_on_a_leap_day_the_review_is_a_day_there_is() -> None:
    assert "review_by: 2029-02-28" in starter_files(load(), date(2028, 2, 29))["limits.yaml"]


def test_the_rule_of_the_tutorial_checks_clean_and_is_covered(house: Path) -> None:
    section = GUIDE.partition("## A first hour with house rules")[2]
    block = re.search(r"```yaml\n(.*?)```", section, re.DOTALL)
    assert block
    (house / "cup_46_06.yaml").write_text(block[1], encoding="utf-8")
    assert flaws(house) == []
    book = load(house, on=TODAY)
    own = [each for each in coverage(book) if each.rule == "house.cup-46-06-too-tight"]
    assert len(own) == 3
    assert [each.missing for each in own] == [(), (), ()]


def test_the_commands_of_the_tutorial_exist() -> None:
    from recommender.cli.app import command_of

    section = GUIDE.partition("## A first hour with house rules")[2]
    named = set(re.findall(r"borewright rules ([a-z]+)", section))
    known = set(command_of("rules").commands)
    assert named
    assert named <= known
