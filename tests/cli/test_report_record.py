"""The page made from a kept record is the page made from its case."""

import json
import re
from pathlib import Path

import pytest
from typer.testing import CliRunner

from recommender.cli import report
from recommender.cli.app import app
from recommender.records.record import canonical, id_of

FINGERPRINT = re.compile(r"[0-9a-f]{64}")


def call(*arguments: object) -> tuple[int, str]:
    result = CliRunner().invoke(app, [str(each) for each in arguments])
    return result.exit_code, result.output


@pytest.fixture
def record(case_path: Path, tmp_path: Path) -> Path:
    case = case_path.parents[1] / "refuse" / "hill-2036.yaml"
    assert call("advise", case, "--keep", tmp_path / "kept")[0] == 0
    (path,) = (tmp_path / "kept").iterdir()
    return path


def test_a_record_and_its_case_make_the_same_page(record: Path, case_path: Path, tmp_path: Path) -> None:
    one, two = tmp_path / "one.html", tmp_path / "two.html"
    assert call("report", record, "--to", one) == (0, "")
    assert call("report", case_path.parents[1] / "refuse" / "hill-2036.yaml", "--to", two)[0] == 0
    first, second = (FINGERPRINT.sub("", each.read_text("utf-8")) for each in (one, two))
    assert first == second
    assert "STOP RIDING" in first.upper()


def test_a_record_that_was_changed_makes_no_page(record: Path, tmp_path: Path) -> None:
    record.write_bytes(record.read_bytes().replace(b'"refuse"', b'"proceed"'))
    code, said = call("report", record, "--to", tmp_path / "page.html")
    assert code == 2
    assert "not what was kept" in said
    assert not (tmp_path / "page.html").exists()


def renamed(record: Path, content: dict[str, object]) -> Path:
    text = canonical(content)
    path = record.with_name(f"{id_of('hill-2036', text.encode())}.json")
    path.write_text(text, encoding="utf-8")
    return path


def test_rules_that_changed_since_are_told(record: Path, tmp_path: Path) -> None:
    content = json.loads(record.read_text("utf-8"))
    path = renamed(record, {**content, "book": {**content["book"], "fingerprint": "0" * 64}})
    code, said = call("report", path, "--to", tmp_path / "page.html")
    assert code == 0
    assert "the rules changed since this record was kept" in said


def test_a_case_that_is_refused_today_makes_no_page_but_tells_of_the_crack(record: Path, tmp_path: Path) -> None:
    content = json.loads(record.read_text("utf-8"))
    path = renamed(record, {**content, "case_text": content["case_text"].replace("sides:", "sidse:")})
    code, said = call("report", path, "--to", tmp_path / "page.html")
    assert code == 2
    assert "STOP RIDING" in said
    assert "sidse" in said


def test_without_the_extra_a_record_tells_of_the_crack(
    record: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(report, "find_spec", lambda name: None)
    code, said = call("report", record, "--to", tmp_path / "page.html")
    assert code == 2
    assert "STOP RIDING" in said
