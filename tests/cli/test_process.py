"""The command in a process of its own: what only shows there."""

import os
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from recommender.cli.guard import guarded
from recommender.reading.shipped import shipped_cases

Run = Callable[..., subprocess.CompletedProcess[str]]


def test_same_case_same_bytes(run: Run, case_path: Path) -> None:
    for form in ("text", "json"):
        first, second = (
            run("advise", case_path, "--format", form, PYTHONHASHSEED=seed).stdout for seed in ("1", "2")
        )
        assert first
        assert first == second


def test_why_same_bytes(run: Run, case_path: Path) -> None:
    first, second = (run("why", case_path, PYTHONHASHSEED=seed).stdout for seed in ("1", "2"))
    assert first
    assert first == second


def test_works_from_any_folder(run: Run, case_path: Path, tmp_path: Path) -> None:
    result = run("advise", case_path, cwd=tmp_path)
    assert (result.returncode, result.stderr) == (0, "")


def test_flawed_case(run: Run, tmp_path: Path) -> None:
    path = tmp_path / "case.yaml"
    path.write_text("case: x\n", encoding="utf-8")
    result = run("advise", path)
    assert (result.returncode, result.stdout) == (2, "")
    assert f"{path}:1:1: error: " in result.stderr
    assert "Traceback" not in result.stderr


@pytest.mark.parametrize(("command", "unloaded"), [
    (("--help",), ("numpy", "matplotlib", "rich", "pydantic", "yaml", "msgspec")),
    (("rules", "check"), ("numpy", "matplotlib", "rich", "msgspec")),
    (("rules", "limits"), ("numpy", "matplotlib", "rich", "msgspec")),
    (("advise", str(shipped_cases() / "proceed" / "lane-2041.yaml")), ("matplotlib", "rich", "msgspec", "jinja2")),
])  # fmt: skip
def test_a_command_loads_only_what_it_needs(command: tuple[str, ...], unloaded: tuple[str, ...]) -> None:
    code = (
        f"import sys; from recommender.cli.guard import guarded; from recommender.cli.app import app;"
        f"code = guarded(lambda: app({command!r}, prog_name='borewright'));"
        f"print(code, [each for each in {unloaded!r} if each in sys.modules], file=sys.stderr)"
    )
    found = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True,
                           env={**os.environ, "PYTHONPATH": str(Path(__file__).resolve().parents[2])})  # fmt: skip
    assert found.stderr.splitlines()[-1] == "0 []"


def test_closed_pipe_is_quiet(case_path: Path) -> None:
    root = Path(__file__).resolve().parents[2]
    command = f"{sys.executable} -m recommender rules facts | head -n 1; echo ${{PIPESTATUS[0]}}"
    result = subprocess.run(["bash", "-c", command], capture_output=True, text=True, check=False,
                            env={**os.environ, "PYTHONPATH": str(root)})  # fmt: skip
    assert result.stderr == ""
    assert result.stdout.splitlines()[-1] == "0"


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_full_disk_is_told_in_words(case_path: Path) -> None:
    root = Path(__file__).resolve().parents[2]
    with open("/dev/full", "w") as full:
        result = subprocess.run([sys.executable, "-m", "recommender", "advise", str(case_path)], stdout=full,
                                stderr=subprocess.PIPE, text=True, check=False,
                                env={**os.environ, "PYTHONPATH": str(root)})  # fmt: skip
    assert result.returncode == 2
    assert "could not be written" in result.stderr
    assert "Traceback" not in result.stderr


def test_a_terminal_that_shows_only_ascii(run: Run, case_text: str, tmp_path: Path) -> None:
    path = tmp_path / "case.yaml"
    path.write_text(case_text.replace("Carbon", "K\u00f6rper", 1), encoding="utf-8")
    result = run("advise", path, PYTHONIOENCODING="ascii", LC_ALL="C")
    assert result.returncode == 0
    assert "rper 46 mm shell" in result.stdout


@pytest.mark.skipif(sys.platform == "win32", reason="signals of another kind")
def test_interrupt_is_quiet(tmp_path: Path, case_path: Path) -> None:
    root = Path(__file__).resolve().parents[2]
    code = (
        "import sys; from recommender.cli import app, guard\n"
        "def stop(): raise KeyboardInterrupt\n"
        "sys.exit(guard.guarded(stop))"
    )
    result = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False,
                            env={**os.environ, "PYTHONPATH": str(root)})  # fmt: skip
    assert (result.returncode, result.stderr) == (128 + signal.SIGINT, "")


def test_a_file_that_cannot_be_opened_is_no_trouble_with_the_output(capsys: pytest.CaptureFixture[str]) -> None:
    def missing() -> None:
        raise FileNotFoundError("this installation has no rules")

    assert guarded(missing) == 2
    assert "this installation has no rules" in capsys.readouterr().err
