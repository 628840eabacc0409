"""What stands around the package: project file, README, continuous integration."""

import re
import tomllib
from pathlib import Path

import recommender

ROOT = Path(__file__).resolve().parents[1]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
CORE = {"pydantic", "PyYAML", "numpy", "typer", "msgspec"}


def test_the_core_needs_five_packages() -> None:
    names = {re.split(r"[<>=]", each)[0] for each in PROJECT["project"]["dependencies"]}
    assert names == CORE


def test_rules_and_cases_travel_in_the_wheel() -> None:
    included = PROJECT["tool"]["hatch"]["build"]["targets"]["wheel"]["force-include"]
    assert included == {"rules": "recommender/rules", "cases": "recommender/cases"}


def test_the_readme_has_one_test_command_and_the_ci_runs_it() -> None:
    commands = re.findall(r"^python3 -m venv .*pytest.*$", (ROOT / "README.md").read_text("utf-8"), re.MULTILINE)
    assert len(commands) == 1
    assert "grep -E '^python3 -m venv .*pytest' README.md" in (ROOT / ".ci" / "run").read_text("utf-8")


def test_the_readme_asks_for_advice_on_a_case_that_exists() -> None:
    (path,) = re.findall(r"borewright advise (\S+)", (ROOT / "README.md").read_text("utf-8"))
    assert (ROOT / path).is_file()


def test_top_level_holds_nothing_else() -> None:
    allowed = {"README.md", "DEVELOPERS.md", "pyproject.toml", "LICENSE", "CHANGELOG.md"}
    folders = {"recommender", "rules", "tests", "cases"}
    built = {"build", "dist", "wheels", "pytest.out"}
    found = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    assert found - built == allowed | folders


def test_the_changelog_has_an_unreleased_section_or_this_version() -> None:
    text = (ROOT / "CHANGELOG.md").read_text("utf-8")
    assert "## [Unreleased]" in text or f"## [{recommender.__version__}]" in text
