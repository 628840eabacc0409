"""Twenty ways a case file can be broken: each is refused in words, at its place, and never with a traceback."""

import re
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner, Result

from recommender.cli.app import app
from recommender.cli.guard import EXIT_CANNOT_JUDGE

PLACE = re.compile(r"^(?P<file>\S.*?):(?P<line>\d+):(?P<column>\d+): error: (?P<message>.+) \[[\w.-]+\]$", re.MULTILINE)
CARET = re.compile(r"^ +\^+$", re.MULTILINE)
ADVICE = re.compile(r"^      \S", re.MULTILINE)


def judged(path: Path) -> Result:
    return CliRunner().invoke(app, ["advise", str(path)], catch_exceptions=False)


def refused(path: Path, said: str, line_shown: bool = True) -> str:
    result = judged(path)
    assert result.exit_code == EXIT_CANNOT_JUDGE
    assert result.stdout == ""
    found = PLACE.search(result.stderr)
    assert found is not None, result.stderr
    assert found["file"] == str(path)
    assert said in result.stderr
    assert ADVICE.search(result.stderr)
    assert bool(CARET.search(result.stderr)) is line_shown
    assert "Traceback" not in result.stderr
    assert "nothing was decided" in result.stderr
    return result.stderr


ONE_CHANGE = [
    pytest.param("seat_depth: 10 mm", "seat_dept: 10 mm", "Did you mean `seat_depth`", id="misspelt key"),
    pytest.param("[45.972, 45.975, 45.973]", "[1.8099, 45.975, 45.973]", "inch", id="inch entry"),
    pytest.param("[45.972, 45.975, 45.973]", "[4.5972, 45.975, 45.973]", "digit", id="lost digit"),
    pytest.param("[45.972, 45.975, 45.973]", "[.nan, 45.975, 45.973]", "nan", id="not a number"),
    pytest.param("[45.972, 45.975, 45.973]", "[-45.972, 45.975, 45.973]", "", id="negative reading"),
    pytest.param("seat_depth: 10 mm", "seat_depth: -10 mm", "", id="negative depth of the seat"),
    pytest.param("warranty: closed", "warranty: closed, warranty: closed", "warranty", id="key written twice"),
    pytest.param("  non_drive:\n", "  non_drive: &other\n", "", id="anchor"),
    pytest.param("  non_drive:\n", "  other_side:\n", "", id="side missing"),
    pytest.param("at: {2: [45.972", "at: {14: [45.972", "seat", id="depth beyond the seat"),
    pytest.param("[45.972, 45.975, 45.973]", "[55.972, 45.975, 45.973]", "range", id="outside the instrument's range"),
    pytest.param("standard: pf30", "standard: pf3", "Did you mean `pf30`", id="misspelt standard"),
    pytest.param("seat_depth: 10 mm", "seat_depth: 10 thou", "unit", id="unknown unit"),
    pytest.param("seat_depth: 10 mm", "seat_depth: 10 arcmin", "", id="unit of another kind"),
    pytest.param("model_year: 2024", "model_year: 20:24", "", id="number to base 60"),
    pytest.param("seat_depth: 10 mm", "seat_depth: 10,5 mm", "decimal comma", id="decimal comma"),
    pytest.param("crash: no_crash", "crash: no", "`no`", id="bare no"),
    pytest.param("received: 2026-05-04", "received: 2026-02-30", "", id="date that does not exist"),
    pytest.param("signs:", "signs: ]", "", id="no YAML at all"),
    pytest.param("    seat_depth", "\tseat_depth", "tab", id="tab for indenting"),
]  # fmt: skip


@pytest.mark.parametrize(("was", "now", "said"), ONE_CHANGE)
def test_one_change_to_a_good_case(was: str, now: str, said: str, case_text: str, tmp_path: Path) -> None:
    spoilt = case_text.replace(was, now, 1)
    assert spoilt != case_text
    path = tmp_path / "spoilt.yaml"
    path.write_text(spoilt, encoding="utf-8")
    refused(path, said)


def test_caret_stands_under_what_is_wrong(case_text: str, tmp_path: Path) -> None:
    path = tmp_path / "spoilt.yaml"
    path.write_text(case_text.replace("seat_depth", "seat_dept", 1), encoding="utf-8")
    lines = refused(path, "seat_dept").splitlines()
    shown = next(index for index, line in enumerate(lines) if "| " in line)
    start, end = lines[shown + 1].index("^"), lines[shown + 1].rindex("^") + 1
    assert lines[shown][start:end] == "seat_dept"


def test_alias(case_text: str, tmp_path: Path) -> None:
    path = tmp_path / "alias.yaml"
    path.write_text(case_text.replace("non_drive:\n", "non_drive: *drive\n", 1), encoding="utf-8")
    refused(path, "")


@pytest.mark.parametrize(
    ("content", "said"),
    [
        pytest.param(b"", "", id="empty file"),
        pytest.param(b"# only a comment\n", "", id="only a comment"),
        pytest.param(bytes(range(256)) * 4, "not a text file", id="binary file"),
        pytest.param(b"case: x\n" + b"# filler\n" * 1_200_000, "larger than", id="file of 10 MB"),
        pytest.param("case: lane".encode("utf-16"), "UTF-16", id="UTF-16"),
    ],
)
def test_files_without_a_line_to_show(content: bytes, said: str, tmp_path: Path) -> None:
    path = tmp_path / "spoilt.yaml"
    path.write_bytes(content)
    result = judged(path)
    assert result.exit_code == EXIT_CANNOT_JUDGE
    assert f"{path}:1:1: error: " in result.stderr
    assert said in result.stderr
    assert "Traceback" not in result.stderr


def test_not_utf_8(case_text: str, tmp_path: Path) -> None:
    path = tmp_path / "latin.yaml"
    path.write_bytes(case_text.replace("Carbon", "Kohl\xe9faser", 1).encode("latin-1"))
    refused(path, "UTF-8")


def test_deep_nesting(tmp_path: Path) -> None:
    path = tmp_path / "deep.yaml"
    path.write_text("case: " + "[" * 5000 + "]" * 5000 + "\n", encoding="utf-8")
    refused(path, "")


def test_directory(tmp_path: Path) -> None:
    refused(tmp_path, "folder", line_shown=False)


def test_missing_file(tmp_path: Path) -> None:
    refused(tmp_path / "nowhere.yaml", "no such file", line_shown=False)


def test_no_permission(case_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def closed(path: Path, *rest: Any, **named: Any) -> Any:
        if Path(path) == case_path:
            raise PermissionError(13, "Permission denied")
        return open(path, *rest, **named)

    monkeypatch.setattr("recommender.reading.files.open", closed, raising=False)
    refused(case_path, "no permission to read this file", line_shown=False)


def test_every_flaw_is_told_at_once(case_text: str, tmp_path: Path) -> None:
    path = tmp_path / "spoilt.yaml"
    spoilt = case_text.replace("seat_depth: 10 mm", "seat_depth: ten", 1)
    path.write_text(spoilt.replace("wall: 3.0 mm", "wall: 3.0 barleycorn", 1), encoding="utf-8")
    assert len(PLACE.findall(refused(path, "ten"))) >= 2


def test_control_characters_do_not_reach_the_terminal(case_text: str, tmp_path: Path) -> None:
    path = tmp_path / "spoilt.yaml"
    path.write_text(case_text.replace("crash: no_crash", 'crash: "\\e[2Jno"', 1), encoding="utf-8")
    assert "\x1b" not in refused(path, "")
