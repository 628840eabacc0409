"""Planning readings and importing the filled sheet on the command line."""

from pathlib import Path

import pytest
from typer.testing import CliRunner

from recommender.cli.app import app

SHELL = ("plan", "--standard", "pf30", "--material", "carbon", "--instrument", "three_point_micrometer:4 um")


def call(*arguments: object) -> tuple[int, str, str]:
    result = CliRunner().invoke(app, [str(each) for each in arguments])
    return result.exit_code, result.stdout, " ".join(result.stderr.replace("│", " ").split())


@pytest.mark.parametrize("command", [("plan",), ("cases", "import")], ids=" ".join)
def test_help_gives_an_example(command: tuple[str, ...]) -> None:
    assert f"Example: borewright {' '.join(command)}" in " ".join(call(*command, "--help")[1].split())


def test_a_planned_sheet_is_filled_in_and_imported(tmp_path: Path) -> None:
    sheet = tmp_path / "sheet.csv"
    code, out, err = call(*SHELL, "--to", sheet)
    assert (code, err) == (0, f"wrote {sheet}")
    assert "9 readings on each side" in " ".join(out.split())
    text = sheet.read_text("utf-8")
    assert text.count("three_point_micrometer,") == 18
    sheet.write_text(text.replace("drive,three_point_micrometer,2,40,,", "drive,three_point_micrometer,2,40,45.97,", 1))
    code, out, _ = call("cases", "import", sheet)
    assert code == 0
    assert '"three_point_micrometer", unit: "mm", turns: [40], at: {2: [45.97]}' in out.replace('"2"', "2")


def test_a_bad_cell_is_named_by_line_and_column(tmp_path: Path, case_path: Path) -> None:
    sheet = tmp_path / "sheet.csv"
    sheet.write_text("case,lane-2041\nunit,mm\nside,instrument,depth_mm,turn_deg,reading_mm,note\ndrive,mice,2,0,45.97,\n")
    code, out, err = call("cases", "import", sheet, "--case", case_path)
    assert (code, out) == (2, "")
    assert f"{sheet}:4:7: error" in err
    assert "Did you mean `mic`?" in err
    assert call("cases", "import", tmp_path / "no.csv")[0] == 2


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--standard", "pf3", *SHELL[3:]), "Did you mean `pf30`?"),
        (("--standard", "bsa", *SHELL[3:]), "no shell standard something is pressed into"),
        (("--standard", "pf30", "--material", "carbn", *SHELL[5:]), "Did you mean `carbon`?"),
        ((*SHELL[1:5], "--instrument", "two_point_gage"), "Did you mean `two_point_gauge`?"),
        ((*SHELL[1:5], "--instrument", "two_point_gauge:4"), "give a length with its unit"),
        ((*SHELL[1:5], "--instrument", "calliper"), "none of these instruments can decide a fit"),
        ((*SHELL[1:], "--seat-depth", "0 mm"), "above 0"),
        (SHELL[1:5], "a plan without CASE needs it"),
    ],
)
def test_wrong_words_are_told(arguments: tuple[str, ...], said: str) -> None:
    code, out, err = call("plan", *arguments)
    assert (code, out) == (2, "")
    assert said in err


def test_a_case_brings_its_own_shell(case_path: Path) -> None:
    assert "a case says this itself" in call("plan", case_path, "--standard", "pf30")[2]


def test_a_cracked_frame_is_told_so_and_no_sheet_is_written(case_path: Path, tmp_path: Path) -> None:
    sheet = tmp_path / "next.csv"
    code, out, err = call("plan", case_path.parents[1] / "refuse" / "hill-2036.yaml", "--to", sheet)
    assert code == 0
    assert "STOP RIDING" in out
    assert "Nothing is open that a reading could settle" in out
    assert "there are no readings to take" in err
    assert not sheet.exists()


def test_a_flawed_case_still_tells_of_the_crack(tmp_path: Path) -> None:
    case = tmp_path / "case.yaml"
    case.write_text("case: x\ndamage: {signs: [{sign: crack, where: lip}]}\n")
    code, out, _ = call("plan", case)
    assert code == 2
    assert "STOP RIDING" in out


def test_the_budget_of_a_case(case_path: Path) -> None:
    code, out, _ = call("why", case_path, "--budget")
    assert code == 0
    assert "DRIVE SIDE: mean 45.972 mm" in out
    assert "setting ring               mic" in out
