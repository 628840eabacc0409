"""The command line run for real, in a process of its own, and the text of a case to spoil."""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
CASES = ROOT / "cases"

Run = Callable[..., subprocess.CompletedProcess[str]]


@pytest.fixture(scope="session")
def run() -> Run:
    def _run(*arguments: object, cwd: Path | None = None, **environment: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [sys.executable, "-m", "recommender", *map(str, arguments)],
            capture_output=True, text=True, encoding="utf-8", timeout=120, cwd=cwd,
            env={**os.environ, "PYTHONPATH": str(ROOT), **environment}, check=False,
        )  # fmt: skip

    return _run


@pytest.fixture
def case_path() -> Path:
    return CASES / "proceed" / "lane-2041.yaml"


@pytest.fixture
def case_text(case_path: Path) -> str:
    return case_path.read_text(encoding="utf-8")
