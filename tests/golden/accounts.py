"""The accounts kept as text. `python tests/golden/accounts.py` writes them anew; read what changed first."""

import os
import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
KEPT = Path(__file__).parent / "accounts"
CASES = ("cases/proceed/lane-2041.yaml", "cases/measure_again/barn-2050.yaml", "cases/refuse/kiln-2014.yaml",
         "cases/refuse/gate-2021.yaml", "cases/proceed/orchard-2052.yaml")  # fmt: skip
FINGERPRINT = re.compile(r"rule book [0-9a-f]{12}")
COMMANDS = ("advise", "why")
README = ROOT / "README.md"
PRINTED = re.compile(r"(?<=```text\n).*?(?=```\n)", re.DOTALL)


def told(command: str, case: str) -> str:
    """Return what a command prints for a case at the top of the checkout, without the fingerprint of the book."""
    done = subprocess.run(
        [sys.executable, "-m", "recommender", command, case], cwd=ROOT, capture_output=True, text=True, check=True,
        encoding="utf-8", env={**os.environ, "PYTHONPATH": str(ROOT)},
    )  # fmt: skip
    return FINGERPRINT.sub("rule book ...", done.stdout)


def kept(command: str, case: str) -> Path:
    """Return the file that keeps what a command prints for a case."""
    return KEPT / f"{Path(case).stem}.{command}.txt"


def refresh() -> None:
    """Write every account anew."""
    KEPT.mkdir(exist_ok=True)
    for command in COMMANDS:
        for case in CASES:
            kept(command, case).write_text(told(command, case), encoding="utf-8")
    printed = told("advise", CASES[0])
    README.write_text(PRINTED.sub(lambda _: printed, README.read_text("utf-8"), count=1), encoding="utf-8")


if __name__ == "__main__":
    refresh()
