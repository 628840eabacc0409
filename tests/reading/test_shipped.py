"""Shipped rules and cases are found beside the package, never by working directory or variable."""

from pathlib import Path

import pytest

from recommender.reading.shipped import PACKAGE, _shipped, shipped_cases, shipped_rules


def test_they_are_found_from_anywhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "rules").mkdir()
    monkeypatch.chdir(tmp_path)
    assert shipped_rules() in (PACKAGE / "rules", PACKAGE.parent / "rules")
    assert list(shipped_rules().rglob("*.yaml"))
    assert list(shipped_cases().rglob("*.yaml"))


def test_in_a_checkout_they_lie_beside_the_package(tmp_path: Path) -> None:
    (tmp_path / "recommender").mkdir()
    (tmp_path / "rules").mkdir()
    assert _shipped("rules", tmp_path / "recommender") == tmp_path / "rules"


def test_installed_they_lie_inside_the_package(tmp_path: Path) -> None:
    (tmp_path / "recommender" / "rules").mkdir(parents=True)
    (tmp_path / "rules").mkdir()
    assert _shipped("rules", tmp_path / "recommender") == tmp_path / "recommender" / "rules"


def test_an_installation_without_them_says_so(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError, match="this installation has no cases"):
        _shipped("cases", tmp_path / "recommender")
