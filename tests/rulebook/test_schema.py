"""The JSON Schemas are fresh, take every file that is shipped, and refuse what the models refuse."""

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from recommender.facts.catalogue import CATALOGUE
from recommender.reading.shipped import shipped_cases, shipped_rules
from recommender.reading.yaml_reader import read_file, read_text
from recommender.rulebook.load import load
from recommender.rulebook.schema import schemas, stale
from recommender.rulebook.starter import starter_files

RULES = sorted(shipped_rules().rglob("*.yaml"))
CASES = sorted(path for path in shipped_cases().rglob("*.yaml") if "malformed" not in path.parts)


@pytest.fixture(scope="module")
def made() -> dict[str, Any]:
    return {name.partition(".")[0]: json.loads(text) for name, text in schemas(load()).items()}


def complaints(schema: dict[str, Any], data: Any) -> list[str]:
    return [f"{list(each.path)}: {each.message}" for each in jsonschema.Draft7Validator(schema).iter_errors(data)]


def test_the_shipped_schemas_are_fresh() -> None:
    folder = shipped_rules() / "schemas"
    assert list(stale(load(), lambda name: (folder / name).read_text("utf-8"))) == []


def test_a_stale_schema_is_seen() -> None:
    assert set(stale(load(), lambda name: "{}")) == {"rules.schema.json", "house.schema.json", "case.schema.json"}


@pytest.mark.parametrize("name", ["rules", "house", "case"])
def test_each_is_a_schema(made: dict[str, Any], name: str) -> None:
    jsonschema.Draft7Validator.check_schema(made[name])


@pytest.mark.parametrize("path", RULES, ids=lambda each: each.stem)
def test_shipped_rules_are_taken(made: dict[str, Any], path: Path) -> None:
    assert complaints(made["rules"], read_file(path).data) == []


@pytest.mark.parametrize("path", CASES, ids=lambda each: each.stem)
def test_shipped_cases_are_taken(made: dict[str, Any], path: Path) -> None:
    assert complaints(made["case"], read_file(path).data) == []


def test_the_house_to_begin_with_is_taken(made: dict[str, Any]) -> None:
    from datetime import date

    for name, text in starter_files(load(), date(2026, 11, 25)).items():
        assert complaints(made["house"], read_text(text, name).data) == []


LEAF = "rules: [{id: a, title: b, about: frame, holds_if: {fact: damage.crack, equals: true}, finding: {stance: " \
    "stops_work}, because: c, source: {kind: memory}, examples: []}]"


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("damage.crack", "damage.crak"),
        ("stops_work", "stop_work"),
        ("about: frame", "about: frames"),
        ("about: frame", "about: {remedies: [reem]}"),
        ("because: c", "becaus: c"),
        ("equals: true", "below: fit.nonsense"),
        ("because: c", "because: c, caution: no-such-caution"),
        ("kind: memory", "kind: hearsay"),
        ("examples: []", "examples: [{name: a, facts: {damage.crak: true}, expect: holds}]"),
    ],
)
def test_a_slip_is_refused(made: dict[str, Any], old: str, new: str) -> None:
    assert complaints(made["rules"], read_text(LEAF, "x").data) == []
    assert old in LEAF
    assert complaints(made["rules"], read_text(LEAF.replace(old, new, 1), "x").data)


def test_facts_and_limits_are_listed_with_what_they_mean(made: dict[str, Any]) -> None:
    fact = made["rules"]["$defs"]["LeafModel"]["properties"]["fact"]
    assert fact["enum"] == list(CATALOGUE)
    assert fact["enumDescriptions"][0] == next(iter(CATALOGUE.values())).meaning
    limit = made["rules"]["$defs"]["LeafModel"]["properties"]["below"]["anyOf"][0]
    assert set(limit["enum"]) == set(load().limits)


def test_a_house_is_only_offered_what_it_may_touch(made: dict[str, Any]) -> None:
    models, book = made["house"]["$defs"], load()
    offered = set(models["Withdraw"]["properties"]["withdraw"]["enum"])
    assert offered == {rule.id for rule in book.rules if not rule.sealed}
    assert "change.none" not in models["Change"]["properties"]["change"]["enum"]
