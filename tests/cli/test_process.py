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


CRACKED = shipped_cases() / "refuse" / "hill-2036.yaml"


@pytest.mark.skipif(sys.platform == "win32", reason="no shell of this kind there")
@pytest.mark.parametrize(
    ("closed", "code"), [(">&-", 2), ("2>&-", 0), ("<&-", 0), (">&- 2>&- <&-", 2), (">/dev/full", 2)]
)
def test_an_output_that_is_closed_or_full_is_no_success(closed: str, code: int, tmp_path: Path) -> None:
    if "/dev/full" in closed and not Path("/dev/full").exists():
        pytest.skip("no such device here")
    kept = tmp_path / "kept"
    line = f"'{sys.executable}' -m recommender advise '{CRACKED}' --keep '{kept}' {closed}"
    found = subprocess.run(["sh", "-c", line], capture_output=True, text=True, check=False, timeout=60,
                           env={**os.environ, "PYTHONPATH": str(Path(__file__).resolve().parents[2])})  # fmt: skip
    assert found.returncode == code
    assert "Traceback" not in found.stderr
    assert ("STOP RIDING" in found.stdout) == (code == 0)
    if "2>&-" not in closed and code:
        assert "output" in found.stderr
    for path in kept.glob("*"):  # nothing that was said went into the record, whose number a closed stream left free
        assert path.read_text("utf-8").startswith("{")
        assert "STOP RIDING" not in path.read_text("utf-8")


@pytest.mark.skipif(sys.platform == "win32", reason="no pipes of this kind there")
def test_an_answer_nobody_reads_to_its_end_is_kept(tmp_path: Path) -> None:
    line = f"'{sys.executable}' -m recommender advise '{CRACKED}' --keep '{tmp_path / 'kept'}' | true"
    subprocess.run(["sh", "-c", line], check=False, timeout=60, capture_output=True,
                   env={**os.environ, "PYTHONPATH": str(Path(__file__).resolve().parents[2])})  # fmt: skip
    assert len(list((tmp_path / "kept").glob("hill-2036-*.json"))) == 1


STEERING: dict[str, dict[str, str]] = {
    "ASCII": {"PYTHONIOENCODING": "ascii"},
    "no language": {"LC_ALL": "C", "LANG": "C", "PYTHONUTF8": "0"},
    "narrow": {"COLUMNS": "1", "LINES": "1"},
    "dumb": {"TERM": "dumb", "NO_COLOR": "1"},
    "no assertions": {"PYTHONOPTIMIZE": "2"},
    "no home": {"HOME": "/nonexistent", "XDG_CACHE_HOME": "/dev/null"},
    "no such place": {"TZ": "Nowhere/None"},
}


@pytest.mark.parametrize("kind", STEERING)
def test_no_variable_changes_an_answer(run: Run, kind: str) -> None:
    plain, steered = run("advise", CRACKED), run("advise", CRACKED, **STEERING[kind])
    assert "STOP RIDING" in plain.stdout
    assert (steered.returncode, steered.stdout) == (0, plain.stdout)
