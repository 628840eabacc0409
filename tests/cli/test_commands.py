"""Exit codes, streams and output of the commands."""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from recommender import ENGINE
from recommender.cli.app import app

COMMANDS = (
    ["advise"], ["why"], ["cases", "run"], ["rules", "check"], ["rules", "facts"], ["rules", "limits"],
    ["rules", "show"],
)  # fmt: skip
NOTICE = "Do not ride this frame"


def call(*arguments: object) -> Result:
    return CliRunner().invoke(app, [str(each) for each in arguments], catch_exceptions=False)


def test_version() -> None:
    result = call("--version")
    assert (result.exit_code, result.stdout) == (0, f"{ENGINE}\n")


@pytest.mark.parametrize("command", COMMANDS, ids=" ".join)
def test_help_gives_an_example(command: list[str]) -> None:
    result = call(*command, "--help")
    assert result.exit_code == 0
    assert f"Example: borewright {' '.join(command)}" in " ".join(result.stdout.split())


@pytest.mark.parametrize(
    "arguments",
    [["advise"], ["advise", "x", "--format", "yaml"], ["why", "x", "--side", "left"], ["why"], ["rules", "show"],
     ["nonsense"], ["rules", "nonsense"], ["--nonsense"]],
    ids=" ".join,
)  # fmt: skip
def test_usage_errors(arguments: list[str]) -> None:
    result = call(*arguments)
    assert result.exit_code == 2
    assert result.stderr
    assert "Traceback" not in result.stderr


def test_advise_answers_in_text(case_path: Path) -> None:
    result = call("advise", case_path)
    assert result.exit_code == 0
    assert result.stderr == ""
    assert result.stdout.isascii()
    assert max(map(len, result.stdout.splitlines())) <= 80
    assert "DRIVE SIDE: press the part as it is" in result.stdout


def test_one_case_is_one_object(case_path: Path) -> None:
    result = call("advise", case_path, "--format", "json")
    advice = json.loads(result.stdout)
    assert result.exit_code == 0
    assert (advice["format"], advice["case"]["id"]) == ("borewright/advice/1", "lane-2041")
    assert result.stdout.count("\n") == 1


def test_several_cases_are_one_object_a_line(case_path: Path) -> None:
    other = case_path.parent / "mill-2027.yaml"
    lines = call("advise", case_path, other, "--format", "json").stdout.splitlines()
    assert [json.loads(line)["case"]["id"] for line in lines] == ["lane-2041", "mill-2027"]


def test_a_flawed_case_does_not_silence_the_others(case_path: Path, tmp_path: Path) -> None:
    result = call("advise", tmp_path / "nowhere.yaml", case_path)
    assert result.exit_code == 2
    assert "FRAME" in result.stdout
    assert "no such file" in result.stderr


def cracked_and_flawed(case_text: str, tmp_path: Path, sign: str = "crack") -> Path:
    path = tmp_path / "cracked.yaml"
    text = case_text.replace("sign: lacquer_scratch", f"sign: {sign}").replace("seat_depth: 10 mm", "seat_dept: 10 mm")
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize("sign", ["crack", "Crack", "crak", "hairline_crack", "delamination", "loose fibres"])
@pytest.mark.parametrize("command", ["advise", "why"])
def test_a_crack_is_spoken_of_whatever_else_is_wrong(command: str, sign: str, case_text: str, tmp_path: Path) -> None:
    result = call(command, cracked_and_flawed(case_text, tmp_path, sign))
    assert result.exit_code == 2
    assert NOTICE in " ".join(result.stdout.split())
    assert NOTICE in " ".join(result.stderr.split())
    assert "seat_dept" in result.stderr


def test_no_notice_without_a_stopping_sign(case_text: str, tmp_path: Path) -> None:
    result = call("advise", cracked_and_flawed(case_text, tmp_path, "mould_mark"))
    assert result.exit_code == 2
    assert result.stdout == ""
    assert NOTICE not in result.stderr


def test_json_stays_json_and_the_notice_goes_to_the_error_stream(case_text: str, tmp_path: Path) -> None:
    result = call("advise", cracked_and_flawed(case_text, tmp_path), "--format", "json")
    assert (result.exit_code, result.stdout) == (2, "")
    assert NOTICE in " ".join(result.stderr.split())


def test_a_crack_is_spoken_of_even_without_rules(case_text: str, tmp_path: Path) -> None:
    house = tmp_path / "house"
    house.mkdir()
    (house / "acts.yaml").write_text("house: [oops\n", encoding="utf-8")
    path = tmp_path / "cracked.yaml"
    path.write_text(case_text.replace("sign: lacquer_scratch", "sign: crack"), encoding="utf-8")
    result = call("advise", path, "--house", house)
    assert result.exit_code == 2
    assert NOTICE in " ".join(result.stdout.split())
    assert "acts.yaml" in result.stderr


def test_a_flawed_house_is_never_passed_over(case_path: Path, tmp_path: Path) -> None:
    (tmp_path / "acts.yaml").write_text("hose: []\n", encoding="utf-8")
    result = call("advise", case_path, "--house", tmp_path)
    assert (result.exit_code, result.stdout) == (2, "")
    assert "nothing was decided" in result.stderr


def test_a_fault_of_the_tool_is_told_in_words(case_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object) -> None:
        raise ZeroDivisionError("division by zero")

    monkeypatch.setattr("recommender.advice.advise", broken)
    result = call("advise", case_path)
    assert (result.exit_code, result.stdout) == (2, "")
    assert "fault in the tool itself (ZeroDivisionError: division by zero)" in result.stderr


def test_why_starts_with_the_reason(case_path: Path) -> None:
    result = call("why", case_path.parents[1] / "refuse" / "kiln-2014.yaml", "--side", "drive")
    assert result.exit_code == 0
    assert result.stdout.isascii()
    assert "NON-DRIVE SIDE" not in result.stdout


def test_why_names_unknown_remedies(case_path: Path) -> None:
    result = call("why", case_path, "--remedy", "press_as_it")
    assert result.exit_code == 2
    assert "Did you mean `press_as_is`" in " ".join(result.stderr.split())


def test_rules_check_finds_nothing_in_what_is_shipped() -> None:
    result = call("rules", "check")
    assert result.exit_code == 0
    assert result.stdout.startswith("no flaws: ")
    assert result.stdout.count("\n") == 1


def test_rules_check_prints_every_flaw_of_a_house(tmp_path: Path) -> None:
    (tmp_path / "acts.yaml").write_text("hose: []\nhuse: []\n", encoding="utf-8")
    result = call("rules", "check", "--house", tmp_path)
    assert result.exit_code == 1
    assert "acts.yaml:1:1" in result.stderr
    assert "acts.yaml:2:1" in result.stderr


def test_rules_lists() -> None:
    assert "bore.mean_diameter (side, mm)" in call("rules", "facts").stdout
    assert "polymer_cup.bar_low: 0.0 um" in call("rules", "limits").stdout


@pytest.mark.parametrize(
    ("name", "said"),
    [("bore.taper", "fact:"), ("polymer_cup.bar_low", "limit:"), ("damage.crack-seen", "rule:"), ("ream", "remedy:"),
     ("polymer_cup_46", "part:"), ("pf30", "standard:")],
)  # fmt: skip
def test_rules_show(name: str, said: str) -> None:
    result = call("rules", "show", name)
    assert result.exit_code == 0
    assert said in result.stdout
    assert name in result.stdout


def test_rules_show_suggests() -> None:
    result = call("rules", "show", "bore.tapper")
    assert result.exit_code == 2
    assert "Did you mean `bore.taper`" in " ".join(result.stderr.split())


def test_cases_run_says_what_was_missed(case_text: str, tmp_path: Path) -> None:
    (tmp_path / "met.yaml").write_text(case_text, encoding="utf-8")
    result = call("cases", "run", tmp_path)
    assert result.exit_code == 0
    assert "1 case: 1 as expected, 0 missed" in result.stdout
    (tmp_path / "wrong.yaml").write_text(case_text.replace("  drive: press_as_is", "  drive: refuse"), encoding="utf-8")
    result = call("cases", "run", tmp_path)
    assert result.exit_code == 1
    assert "drive: expected refuse, found press_as_is" in result.stdout


def test_cases_run_without_cases_is_no_success(tmp_path: Path) -> None:
    result = call("cases", "run", tmp_path)
    assert result.exit_code == 1
    assert "no cases found" in result.stdout
