"""A crack refuses the frame, and a place nobody looked at never clears it, whatever else legal is edited."""

import shutil
from collections.abc import Iterator
from copy import deepcopy
from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from recommender.advice import advise
from recommender.bench.load import LoadedCase, case_in
from recommender.deciding.answer import Advice
from recommender.ground.flaw import Flawed
from recommender.reading.shipped import shipped_cases, shipped_rules
from recommender.reading.yaml_reader import read_file, read_text
from recommender.rulebook.book import Rulebook
from recommender.rulebook.load import load
from recommender.rulebook.seals import SEALED_IDS

CRACKED = "refuse/gate-2021.yaml"
NEEDED = {"case", "title", "received", "frame", "bench", "sides", "damage"}
EDITS: tuple[tuple[tuple[str, ...], Any], ...] = (
    (("history", "symptoms"), []),
    (("history", "crash"), "no_crash"),
    (("history", "warranty"), "open"),
    (("history", "consent"), ["ream", "sleeve"]),
    (("frame", "material"), "aluminium"),
    (("frame", "material"), "steel"),
    (("frame", "standard"), "unknown"),
    (("frame", "openings"), []),
    (("frame", "openings"), "unknown"),
    (("frame", "wall"), "12 mm"),
    (("frame", "insert"), "bonded"),
    (("damage", "insert_test"), "firm"),
    (("damage", "looked_at"), {}),
    (("alignment",), "unknown"),
    (("parts",), []),
    (("sides", "drive"), {"readings": "none", "reason": "not read"}),
    (("sides", "non_drive"), {"readings": "none", "reason": "not read"}),
    (("bench", "frame_temperature"), "unknown"),
)


@lru_cache(maxsize=1)
def _book() -> Rulebook:
    return load()


def _flow(value: Any) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key!r}: {_flow(each)}" for key, each in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_flow, value)) + "]"
    return "null" if value is None else str(value).lower() if isinstance(value, bool) else repr(value)


def _case(data: dict[str, Any]) -> LoadedCase:
    return case_in(read_text("\n".join(f"{key}: {_flow(value)}" for key, value in data.items()), "case.yaml"))


def _data(name: str) -> dict[str, Any]:
    data = deepcopy(read_file(shipped_cases() / name).data)
    data.pop("expect", None)
    return data


def _put(data: dict[str, Any], path: tuple[str, ...], value: Any) -> None:
    for step in path[:-1]:
        data = data.setdefault(step, {})
    data[path[-1]] = value


def _refused_for_damage(advice: Advice) -> bool:
    sides = advice.sides.values()
    notices = {notice.id for notice in advice.notices}
    return advice.frame.verdict == "refuse" and all(side.verdict == "refuse" for side in sides) and "damage" in notices


@settings(max_examples=60, deadline=None, derandomize=True)
@given(
    edits=st.lists(st.sampled_from(EDITS), max_size=6), gone=st.sets(st.sampled_from(["history", "parts", "alignment"]))
)
def test_a_crack_is_refused_whatever_else_legal_stands_in_the_case(
    edits: list[tuple[tuple[str, ...], Any]], gone: set[str]
) -> None:
    data = _data(CRACKED)
    for path, value in edits:
        _put(data, path, value)
    for key in gone - NEEDED:
        data.pop(key, None)
    assert _refused_for_damage(advise(_case(data), _book()))


def _rule_files() -> Iterator[Path]:
    yield from sorted(shipped_rules().rglob("*.yaml"))


def _rules_copy(folder: Path) -> Path:
    shutil.copytree(shipped_rules(), folder / "rules")
    return folder / "rules"


def _without_rule(text: str, rule: str) -> str:
    """Return a rule file without one rule: from its line to the next rule or section."""
    lines, kept, inside = text.splitlines(keepends=True), [], False
    for line in lines:
        if line.startswith("  - id: "):
            inside = line.split("id: ")[1].strip() == rule
        elif not line.startswith((" ", "#", "\n")):
            inside = False
        if not inside:
            kept.append(line)
    text = "".join(kept)
    return text if "  - id: " in text else text.replace("\nrules:\n", "\n")


def _remove(rules: Path, rule: str) -> None:
    for path in rules.rglob("*.yaml"):
        text = path.read_text(encoding="utf-8")
        if f"- id: {rule}\n" in text:
            left = _without_rule(text, rule)
            path.write_text(left, encoding="utf-8")
            if all(not line or line.startswith("#") for line in left.splitlines()):
                path.unlink()
            return
    raise AssertionError(f"no file holds {rule}")


@pytest.mark.parametrize("rule", SEALED_IDS)
def test_taking_a_sealed_rule_out_makes_loading_stop(rule: str, tmp_path: Path) -> None:
    rules = _rules_copy(tmp_path)
    _remove(rules, rule)
    with pytest.raises(Flawed) as raised:
        load(rules=rules)
    assert any(rule in flaw.message for flaw in raised.value.flaws)


def test_a_crack_is_refused_with_every_unsealed_damage_and_evidence_rule_gone(tmp_path: Path) -> None:
    rules = _rules_copy(tmp_path)
    unsealed = [rule.id for rule in _book().rules if rule.about.kind in ("frame", "side") and rule.id not in SEALED_IDS]
    for rule in unsealed:
        _remove(rules, rule)
    edited = load(rules=rules)
    advice = advise(_case(_data(CRACKED)), edited)
    assert unsealed
    assert _refused_for_damage(advice)
    assert edited.edited
    assert advice.rulebook.edited


def _proceeding() -> list[str]:
    return [f"proceed/{path.name}" for path in sorted((shipped_cases() / "proceed").glob("*.yaml"))]


@pytest.mark.parametrize("name", _proceeding())
def test_a_frame_that_may_be_pressed_may_not_once_a_place_was_not_looked_at(name: str) -> None:
    for place in _data(name)["damage"]["looked_at"]:
        data = _data(name)
        del data["damage"]["looked_at"][place]
        advice = advise(_case(data), _book())
        assert advice.frame.verdict == "measure_again", place
        assert advice.questions


@pytest.mark.parametrize("name", _proceeding())
def test_a_frame_that_may_be_pressed_may_not_once_a_crack_is_seen(name: str) -> None:
    data = _data(name)
    data["damage"]["signs"] = [{"sign": "crack", "where": "lip", "side": "drive"}]
    assert _refused_for_damage(advise(_case(data), _book()))
