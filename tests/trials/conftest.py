"""A hundred frames: cases made from shipped ones by moving one diameter or one crack."""

from pathlib import Path

import pytest

CASES = Path(__file__).resolve().parents[2] / "cases"


@pytest.fixture(scope="session")
def cracked() -> str:
    return (CASES / "refuse" / "hill-2036.yaml").read_text(encoding="utf-8")


@pytest.fixture(scope="session")
def direct_bearings() -> str:
    return (CASES / "proceed" / "bridge-2058.yaml").read_text(encoding="utf-8")


@pytest.fixture(scope="session")
def hundred(cracked: str, direct_bearings: str) -> list[str]:
    """Cracked frames that nobody measured, and some with bearings from 8 to 31 um larger than the bore."""
    frames = [
        cracked.replace("hill-2036", f"hill-{count}").replace("length: 9 mm", f"length: {count + 1} mm")
        for count in range(90)
    ]
    fits = [
        direct_bearings.replace("bridge-2058", f"bridge-{count}")
        .replace("od: {value: 41.994 mm", f"od: {{value: {41.980 + 0.0025 * count:.4f} mm")
        for count in range(10)
    ]  # fmt: skip
    assert len({*frames, *fits}) == 100
    return frames + fits
