"""The commands on the rule book: output, streams and exit codes."""

import json
import shutil
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from recommender.cli.app import app
from recommender.reading.shipped import shipped_rules

SIGNED = "reason: because, by: somebody, dated: 2026-01-01, review_by: 2026-06-01"
BAD = f"house: [{{change: gap.lest, to: 8 um, was: 5 um, {SIGNED}}}]"


def call(*arguments: object) -> Result:
    return CliRunner().invoke(app, ["rules", *map(str, arguments)], catch_exceptions=False)


@pytest.fixture
def bad_house(tmp_path: Path) -> Path:
    (tmp_path / "a.yaml").write_text(BAD)
    return tmp_path


@pytest.mark.parametrize("name", ["check", "facts", "limits", "show", "compare", "coverage", "schema", "start"])
def test_help_gives_an_example(name: str) -> None:
    result = call(name, "--help")
    assert result.exit_code == 0
    assert f"Example: borewright rules {name}" in " ".join(result.stdout.split())


def test_a_flaw_is_told_with_its_place_and_leaves_with_1(bad_house: Path) -> None:
    result = call("check", "--house", bad_house)
    assert result.exit_code == 1
    assert f"{bad_house.name}/a.yaml:1:18: error: there is no limit `gap.lest` [rules.house-unknown]" in result.stderr
    assert "^^^^^^^^" in result.stderr
    assert "1 error" in result.stderr
    assert result.stdout == ""


def test_flaws_as_json(bad_house: Path) -> None:
    result = call("check", "--house", bad_house, "--format", "json")
    found = [each for each in json.loads(result.stdout) if each["level"] == "error"]
    assert result.exit_code == 1
    assert [(each["check"], each["line"], each["column"], each["end_column"]) for each in found] == [
        ("rules.house-unknown", 1, 18, 26)
    ]


def test_flaws_as_sarif(bad_house: Path) -> None:
    result = call("check", "--house", bad_house, "--format", "sarif")
    log = json.loads(result.stdout)
    assert log["version"] == "2.1.0"
    run = log["runs"][0]
    assert run["tool"]["driver"]["name"] == "borewright"
    for each in run["results"]:
        assert run["tool"]["driver"]["rules"][each["ruleIndex"]]["id"] == each["ruleId"]
        assert each["level"] in ("error", "warning", "note")
        assert each["message"]["text"]
    error = next(each for each in run["results"] if each["level"] == "error")
    where = error["locations"][0]["physicalLocation"]
    assert where["region"] == {"startLine": 1, "startColumn": 18, "endLine": 1, "endColumn": 26}
    assert where["artifactLocation"]["uri"] == f"{bad_house.name}/a.yaml"


def test_an_overdue_review_is_seen_on_the_day_asked_about(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").write_text(BAD.replace("gap.lest", "polymer_cup.aim_low").replace("8 um", "35 um")
                                     .replace("5 um, reason", "30 um, reason"))  # fmt: skip
    assert call("check", "--house", tmp_path).exit_code == 0
    late = call("check", "--house", tmp_path, "--on", "2026-11-25")
    assert late.exit_code == 0
    assert "still in force" in late.stderr
    assert call("check", "--on", "25.11.2026").exit_code == 2


def test_the_page_of_a_check() -> None:
    assert "Prefer:" in call("check", "--about", "never-holds").stdout
    unknown = call("check", "--about", "never-hold")
    assert unknown.exit_code == 2
    assert "never-holds" in " ".join(unknown.stderr.split())


def test_show_tells_who_changed_a_limit_and_why(tmp_path: Path) -> None:
    call("start", tmp_path / "own")
    shown = call("show", "polymer_cup.aim_low", "--house", tmp_path / "own").stdout
    assert "30.0 um -> 35.0 um" in shown
    assert "workshop lead" in shown


def test_start_makes_a_folder_that_checks_clean_and_never_writes_over_one(tmp_path: Path) -> None:
    own = tmp_path / "own"
    assert call("start", own).exit_code == 0
    checked = call("check", "--house", own)
    assert (checked.exit_code, checked.stderr) == (0, "")
    assert call("schema", "--house", own).exit_code == 0
    assert call("start", own).exit_code == 2


def test_a_stale_schema_leaves_with_1(tmp_path: Path) -> None:
    assert call("schema", "--to", tmp_path).exit_code == 1
    assert call("schema", "--write", "--to", tmp_path / "made").exit_code == 0
    assert call("schema", "--to", tmp_path / "made").exit_code == 0


def test_limits_counted_by_source() -> None:
    assert "common practice, no source" in call("limits", "--summary").stdout


def test_coverage_of_the_shipped_rules() -> None:
    result = call("coverage")
    assert result.exit_code == 0
    assert "close to their limit by the examples" in " ".join(result.stdout.split())


def test_a_milder_case_has_to_be_accepted(tmp_path: Path, cases: Path) -> None:
    case = cases / "measure_again" / "crane-2082.yaml"
    rules = tmp_path / "rules"
    shutil.copytree(shipped_rules(), rules)
    for path in rules.rglob("*.yaml"):
        text = path.read_text("utf-8")
        if "ring.drift_limit:\n" in text:
            head, mark, rest = text.partition("ring.drift_limit:\n")
            rest = rest.replace("value: 3\n", "value: 8\n", 1)
            path.write_text(_examples_moved(head + mark + rest), encoding="utf-8")
    result = call("compare", "shipped", rules, "--cases", case)
    assert result.exit_code == 1, result.stderr
    assert "MILDER" in result.stdout
    assert "evidence.ring-drifted" in result.stdout
    assert "margin +5.0 um" in " ".join(result.stdout.split())
    as_data = json.loads(call("compare", "shipped", rules, "--cases", case, "--format", "json").stdout)
    assert as_data["unaccepted"] == ["crane-2082"]
    same = call("compare", "shipped", "shipped", "--cases", case)
    assert same.exit_code == 0
    assert "1 frame compared: 0 milder, 0 stricter, 0 another remedy." in same.stdout


def _examples_moved(text: str) -> str:
    return text.replace("evidence.ring_drift: 4 um", "evidence.ring_drift: 9 um")


@pytest.fixture
def cases() -> Path:
    from recommender.reading.shipped import shipped_cases

    return shipped_cases()


def test_flags_are_listed_as_they_are_written_in_a_rule() -> None:
    told = call("facts").stdout.partition("damage.polished_band (side)")[2].partition("\n\n")[0]
    assert "true, false" in told.partition("From")[0]
    assert "true, false" in call("show", "damage.polished_band").stdout


def test_a_fact_shows_the_words_it_takes_from_the_book() -> None:
    assert "polymer_cup" in call("show", "fit.class").stdout
    assert "polymer_cup" in call("facts").stdout.partition("fit.class (option)")[2].partition("From")[0]


def test_the_ids_of_a_kind_are_listed_and_each_can_be_shown() -> None:
    for kind in ("parts", "remedies", "standards", "actions", "cautions"):
        listed = [line.partition(":")[0] for line in call("show", kind).stdout.splitlines() if line[:1].strip()]
        assert listed
        assert call("show", listed[0]).stdout.startswith(f"{kind.removesuffix('s').replace('remedie', 'remedy')}:")


def test_start_names_every_file_it_wrote(tmp_path: Path) -> None:
    told = call("start", tmp_path / "ours").stdout
    written = [path for path in (tmp_path / "ours").rglob("*") if path.is_file()]
    assert written
    assert all(f"wrote {path}" in told for path in written)
