"""A record read without its trace is the same record."""

from pathlib import Path

import pytest

from recommender.advice import advise
from recommender.bench.load import load_case
from recommender.ground.flaw import Flawed
from recommender.reading.shipped import shipped_cases
from recommender.records.decided import _without_trace, read_decided
from recommender.records.record import record_of
from recommender.records.store import keep, read_record
from recommender.rulebook.load import load
from recommender.trials.run_cases import case_files


@pytest.fixture(scope="module")
def path(tmp_path_factory: pytest.TempPathFactory) -> Path:
    case = next(each for each in case_files(shipped_cases()) if each.stem == "hill-2036")
    loaded, book = load_case(case), load()
    return keep(record_of(loaded, advise(loaded, book), book), tmp_path_factory.mktemp("kept"))


def test_everything_but_the_trace_is_there(path: Path) -> None:
    whole, short = read_record(path).content, read_decided(path)
    assert _without_trace(path.read_bytes()) is not None
    assert short.advice == {**whole.advice, "trace": {}}
    assert (short.book, short.case_text, short.case) == (whole.book, whole.case_text, whole.case)


def test_a_record_changed_in_its_trace_is_refused_all_the_same(path: Path, tmp_path: Path) -> None:
    changed = tmp_path / path.name
    raw = path.read_bytes()
    at = raw.index(b'"RuleRun"')
    changed.write_bytes(raw[:at] + b'"RuleRan"' + raw[at + 9 :])
    with pytest.raises(Flawed):
        read_decided(changed)


def test_another_form_is_read_in_full_and_refused(tmp_path: Path) -> None:
    other = tmp_path / "x-000000000000.json"
    other.write_text("{}")
    with pytest.raises(Flawed):
        read_decided(other)
