"""What is read of a record without its trace is what the whole record says."""

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

FIELDS = ("value", "low", "high", "word", "unknown", "sampling", "beyond", "assumed")


@pytest.fixture(scope="module", params=["hill-2036", "bridge-2057"])
def path(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    case = next(each for each in case_files(shipped_cases()) if each.stem == request.param)
    loaded, book = load_case(case), load()
    return keep(record_of(loaded, advise(loaded, book), book), tmp_path_factory.mktemp("kept"))


def test_the_case_is_that_of_the_record(path: Path) -> None:
    whole, short = read_record(path).content, read_decided(path)
    assert len(_without_trace(path.read_bytes())) < path.stat().st_size
    case = whole.advice["case"]
    assert (short.advice.case.id, short.advice.case.received) == (case["id"], case["received"])
    assert short.case_text == whole.case_text
    assert short.advice.frame.damage is whole.advice["frame"]["damage"]


def test_every_fact_is_that_of_the_record(path: Path) -> None:
    whole, short = read_record(path).content.advice, read_decided(path).advice
    pairs = [(whole["frame"]["facts"], short.frame.facts)]
    for name, side in whole["sides"].items():
        pairs.append((side["facts"], short.sides[name].facts))
        for one, two in zip(side["remedies"], short.sides[name].remedies, strict=True):
            assert one["id"] == two.id
            for there, here in zip(one["options"], two.options, strict=True):
                assert (there["part"], there["part_id"], there["condition"]) == (
                    here.part, here.part_id, here.condition
                )  # fmt: skip
                pairs.append((there["facts"], here.facts))
    for there, raw in pairs:
        found = {name: {key: getattr(each, key) for key in FIELDS} for name, each in raw.items()}
        assert found == {name: {key: each.get(key) for key in FIELDS} for name, each in there.items()}


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
