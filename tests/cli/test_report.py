"""`borewright report` as it is run: the file it writes, and what it says when it cannot."""

import subprocess
import sys
from pathlib import Path

import pytest
import typer
from typer.testing import CliRunner

from recommender.cli import report
from recommender.reading.shipped import shipped_cases

app = typer.Typer()
app.command()(report.report_case)
RUN = CliRunner()


def test_it_writes_the_page(tmp_path: Path) -> None:
    out = tmp_path / "page.html"
    ran = RUN.invoke(app, [str(shipped_cases() / "proceed/mill-2027.yaml"), "--to", str(out)])
    assert (ran.exit_code, ran.output) == (0, "")
    assert out.read_text("utf-8").startswith("<!DOCTYPE html>")


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    out = tmp_path / "no" / "page.html"
    ran = RUN.invoke(app, [str(shipped_cases() / "proceed/mill-2027.yaml"), "--to", str(out)])
    assert ran.exit_code == 2
    assert "there is no folder to write this file to" in ran.output


def test_a_flawed_case_writes_nothing_and_still_tells_of_the_crack(tmp_path: Path) -> None:
    case, out = tmp_path / "case.yaml", tmp_path / "page.html"
    case.write_text("case: x\ndamage: {signs: [{sign: crack, where: lip}]}\n")
    ran = RUN.invoke(app, [str(case), "--to", str(out)])
    assert ran.exit_code == 2
    assert "STOP RIDING" in ran.output
    assert not out.exists()


def test_a_missing_extra_is_named_with_what_to_install(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(report, "find_spec", lambda name: None)
    ran = RUN.invoke(app, [str(shipped_cases() / "refuse/gate-2021.yaml"), "--to", str(tmp_path / "page.html")])
    assert ran.exit_code == 2
    assert "pip install 'borewright[report]'" in ran.output
    assert "STOP RIDING" in ran.output


def test_other_commands_do_without_the_extra() -> None:
    script = "import sys, recommender.cli.app, recommender.cli.report; print({'jinja2', 'matplotlib'} & {*sys.modules})"
    ran = subprocess.run([sys.executable, "-c", script], capture_output=True, check=True, text=True)
    assert ran.stdout.strip() == "set()"
