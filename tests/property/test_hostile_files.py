"""Case, rule and house files of any kind give an answer or flaws in words, never anything else."""

import json
import sys
from datetime import date
from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

sys.path.insert(0, str(Path(__file__).parent))

from hostile import as_text, garbage, nearly

from recommender.advice import advise
from recommender.bench.load import case_in
from recommender.deciding.answer import to_json
from recommender.ground.flaw import Flawed
from recommender.reading.document import Document
from recommender.reading.shipped import shipped_cases, shipped_rules
from recommender.reading.yaml_reader import read_file, read_text
from recommender.rulebook.assemble import book_of
from recommender.rulebook.book import Rulebook
from recommender.rulebook.folders import read_folder
from recommender.rulebook.gather import Gathered, gather
from recommender.rulebook.house import with_house
from recommender.rulebook.load import load
from recommender.rulebook.seals import SEALED_IDS
from recommender.rulebook.starter import starter_files

VERDICTS = {"proceed", "measure_again", "refuse"}
CASES = ("proceed/lane-2041", "refuse/hill-2036", "measure_again/pond-2131", "proceed/acorn-2116", "refuse/kiln-2014")


def some(count: int) -> settings:
    return settings(max_examples=count, deadline=None, derandomize=True,
                    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])  # fmt: skip


def _case(name: str) -> dict[str, Any]:
    data = json.loads(json.dumps(read_file(shipped_cases() / f"{name}.yaml").data, default=str))
    data.pop("expect", None)
    return dict(data)


@lru_cache(maxsize=1)
def _book() -> Rulebook:
    return load()


@lru_cache(maxsize=1)
def _documents() -> tuple[Document, ...]:
    return tuple(read_folder(shipped_rules()))


@lru_cache(maxsize=1)
def _gathered() -> Gathered:
    return gather(_documents())


def _told(refused: Flawed) -> None:
    assert refused.flaws
    for each in refused.flaws:
        assert min(each.place[1:]) >= 1
        assert each.message.strip()
        assert each.advice.strip()


def _judged(text: str) -> str | None:
    """Return the verdict on a case, None where it was refused in words."""
    try:
        advice = advise(case_in(read_text(text, "case.yaml")), _book())
    except Flawed as refused:
        _told(refused)
        return None
    told = to_json(advice)
    assert "NaN" not in told
    assert "Infinity" not in told
    assert advice.frame.verdict in VERDICTS
    return advice.frame.verdict


@some(80)
@given(nearly([_case(name) for name in CASES]).map(as_text))
def test_a_case_that_is_nearly_good(text: str) -> None:
    _judged(text)


@some(100)
@given(garbage.map(as_text) | st.text(max_size=300))
def test_a_case_that_is_none(text: str) -> None:
    assert _judged(text) is None


def test_the_good_cases_are_good() -> None:
    assert all(_judged(as_text(_case(name))) for name in CASES)


@some(25)
@given(st.data())
def test_a_rule_file_that_is_nearly_good(data: st.DataObject) -> None:
    files = [each for each in _documents() if len(each.text) < 12_000]
    chosen = data.draw(st.sampled_from(range(len(files))))
    text = as_text(data.draw(nearly([dict(files[chosen].data)])))
    try:
        edited = read_text(text, files[chosen].file)
        book = book_of(gather([edited if each is files[chosen] else each for each in _documents()]), SEALED_IDS)
    except Flawed as refused:
        _told(refused)
        return
    assert book.limits


@some(60)
@given(garbage.map(as_text) | st.text(max_size=300))
def test_a_rule_file_that_is_none(text: str) -> None:
    try:
        book = book_of(gather([*_documents(), read_text(text, "more.yaml")]), SEALED_IDS)
    except Flawed as refused:
        _told(refused)
        return
    assert (len(book.rules), len(book.limits)) == (len(_book().rules), len(_book().limits))


@pytest.mark.parametrize("listed", ["[[], steel]", "[-5, steel]", "[7]", "[{a: 1}]", "[true, steel]"])
def test_a_list_of_words_that_holds_something_else(listed: str) -> None:
    with pytest.raises(Flawed, match="list of words") as refused:
        gather([*_documents(), read_text(f"words: {{house.kinds: {listed}}}", "more.yaml")])
    _told(refused.value)


def _house_files() -> list[dict[str, Any]]:
    files = starter_files(_book(), date(2026, 5, 4))
    read = (read_text(text, name).data for name, text in files.items() if name.endswith(".yaml"))
    return [json.loads(json.dumps(each, default=str)) for each in read]


@some(60)
@given(st.data())
def test_a_house_file_that_is_nearly_good_or_none(data: st.DataObject) -> None:
    files = nearly(_house_files()) | garbage
    text = as_text(data.draw(files))
    try:
        book = with_house(_book(), _gathered(), [read_text(text, "house.yaml")], None, SEALED_IDS)
    except Flawed as refused:
        _told(refused)
        return
    assert {rule.id for rule in _book().rules if rule.id in SEALED_IDS} <= {rule.id for rule in book.rules}
