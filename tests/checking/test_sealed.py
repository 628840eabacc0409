"""Attempts to weaken each sealed rule: loading stops and says why, or what is decided stays as strict."""

from collections.abc import Callable, Iterator
from copy import deepcopy
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from recommender.checking.pruning import without
from recommender.deciding.decide import decide
from recommender.deciding.milder import milder
from recommender.deriving.derived import SIDES, Derived, OptionFacts, SideFacts
from recommender.facts.catalogue import CATALOGUE
from recommender.ground.flaw import Flawed
from recommender.reading.document import Document
from recommender.reading.yaml_reader import read_text
from recommender.rulebook import load as door
from recommender.rulebook.book import Rule, Rulebook
from recommender.rulebook.folders import read_folder, shipped_folder
from recommender.rulebook.required import BEHIND
from recommender.rulebook.seals import SEALED_IDS
from recommender.trials.standings import standing_of

SIGNED = "reason: because, by: somebody, dated: 2026-01-01, review_by: 2030-01-01"
HOUSE = Path("house")
Documents = list[Document]
Edit = Callable[[dict[str, Any], Rule], None]


@pytest.fixture(scope="module")
def documents() -> Documents:
    """The shipped files with as few other rules as the remedies need; whatever a sealed rule reaches is whole."""
    kept: set[str] = set(SEALED_IDS)
    spoken: set[tuple[str, str]] = set()
    found = read_folder(shipped_folder())
    for document in found:
        for rule in document.data.get("rules", ()):
            names = rule["about"].get("remedies", ()) if isinstance(rule["about"], dict) else ()
            new = {(name, rule["finding"]["stance"]) for name in names} - spoken
            if any(stance in ("supports", "rules_out") for _, stance in new):
                spoken |= new
                kept.add(rule["id"])
    return [_with_rules(document, lambda rule: rule["id"] in kept) for document in found]


def _with_rules(document: Document, wanted: Callable[[dict[str, Any]], bool]) -> Document:
    left = {("rules", at) for at, rule in enumerate(document.data.get("rules", ())) if not wanted(rule)}
    return without(document, left)


@pytest.fixture
def load(monkeypatch: pytest.MonkeyPatch) -> Callable[..., Rulebook]:
    """The one door, reading these files instead of those on the disk."""

    def through(shipped: Documents, house: str = "") -> Rulebook:
        of_house = [read_text(house, "house/own.yaml")] if house else []
        monkeypatch.setattr(door, "_read", lambda folder: of_house if folder == HOUSE else shipped)
        monkeypatch.setattr(door, "key_of", lambda folder: None)
        return door.load(HOUSE if house else None, rules=shipped_folder(), on=date(2026, 6, 1))

    return through


def edited(documents: Documents, rule: Rule, edit: Edit) -> Documents:
    """The files with the one that holds a rule changed; the others are the same."""
    found = [deepcopy(document.data) for document in documents]
    for data in found:
        edit(data, rule)
    return [Document(each.file, each.text, data, each.places) for each, data in zip(documents, found, strict=True)]


def in_file(data: dict[str, Any], rule: Rule) -> Iterator[dict[str, Any]]:
    yield from (each for each in data.get("rules", ()) if each["id"] == rule.id)


def leaves(condition: Any) -> Iterator[dict[str, Any]]:
    if isinstance(condition, dict):
        if "fact" in condition:
            yield condition
        for value in condition.values():
            yield from leaves(value)
    elif isinstance(condition, list):
        for each in condition:
            yield from leaves(each)


def reached(rule: Rule) -> tuple[str, ...]:
    return (*rule.limits, *(name for fact in rule.facts for name in BEHIND.get(fact, ())))


# Edits of the shipped files.


def delete(data: dict[str, Any], rule: Rule) -> None:
    data["rules"] = [each for each in data.get("rules", ()) if each["id"] != rule.id]


def edit_a_limit(data: dict[str, Any], rule: Rule) -> None:
    for name in reached(rule)[:1]:
        if name in data.get("limits", {}):
            limit = data["limits"][name]
            limit["value"] = limit["value"] + (-1 if limit["safe_side"] == "higher" else 1)


def edit_a_unit(data: dict[str, Any], rule: Rule) -> None:
    for name in reached(rule)[:1]:
        if name in data.get("limits", {}):
            unit = data["limits"][name]["unit"]
            data["limits"][name]["unit"] = {"um": "mm", "mm": "um", "1": "%", "%": "1"}.get(unit, "K")


def turn_the_safe_side(data: dict[str, Any], rule: Rule) -> None:
    for name in reached(rule)[:1]:
        if name in data.get("limits", {}):
            limit = data["limits"][name]
            limit["safe_side"] = {"higher": "lower", "lower": "higher"}[limit["safe_side"]]


def rename_the_fact(data: dict[str, Any], rule: Rule) -> None:
    for each in in_file(data, rule):
        next(leaves(each["holds_if"]))["fact"] += "_x"


def ask_another_fact(data: dict[str, Any], rule: Rule) -> None:
    asked = CATALOGUE[rule.facts[0]]
    like = [each.id for each in CATALOGUE.values() if (each.kind, each.scope, each.unit, each.words)
            == (asked.kind, asked.scope, asked.unit, asked.words) and each.id not in rule.facts]  # fmt: skip
    for each in in_file(data, rule):
        next(leaf for leaf in leaves(each["holds_if"]) if leaf["fact"] == asked.id)["fact"] = like[0] if like else "x"
        each["examples"] = []


def narrow_the_words(data: dict[str, Any], rule: Rule) -> None:
    for each in in_file(data, rule):
        for leaf in leaves(each["holds_if"]):
            if "one_of" in leaf:
                words = CATALOGUE[leaf["fact"]].words
                leaf["one_of"] = [next((word for word in words if word not in leaf["one_of"]), "another")]


def change_the_stance(data: dict[str, Any], rule: Rule) -> None:
    for each in in_file(data, rule):
        each["finding"] = {"stance": "advises_against"}


def excuse_it(data: dict[str, Any], rule: Rule) -> None:
    for each in in_file(data, rule):
        each["finding"]["if_undecided"] = "caution"


def empty_the_list(data: dict[str, Any], rule: Rule) -> None:
    for each in in_file(data, rule):
        each["holds_if"] = {"every": []}


def add_a_second_one(data: dict[str, Any], rule: Rule) -> None:
    for each in list(in_file(data, rule)):
        data["rules"].append({**deepcopy(each), "finding": {"stance": "advises_against"}})


def write_capitals(data: dict[str, Any], rule: Rule) -> None:
    for each in in_file(data, rule):
        each["id"] = each["id"].capitalize()


def remove_a_word(data: dict[str, Any], rule: Rule) -> None:
    if any(fact.startswith("damage.") for fact in rule.facts) and "words" in data:
        data["words"]["signs"].remove("crack")


def ask_less(data: dict[str, Any], rule: Rule) -> None:
    """Ask a further thing that is hardly ever so, so that the rule seldom holds."""
    for each in in_file(data, rule):
        leaf = deepcopy(next(leaves(each["holds_if"])))
        each["holds_if"] = {"every": [each["holds_if"], {"none_of": [leaf]}]}


EDITS: tuple[Edit, ...] = (
    delete, edit_a_limit, edit_a_unit, turn_the_safe_side, rename_the_fact, ask_another_fact, narrow_the_words,
    change_the_stance, excuse_it, empty_the_list, add_a_second_one, write_capitals, remove_a_word, ask_less,
)  # fmt: skip


@pytest.fixture(scope="module")
def shipped() -> Rulebook:
    return door.load()


@pytest.mark.parametrize("edit", EDITS, ids=lambda each: each.__name__)
@pytest.mark.parametrize("name", SEALED_IDS)
def test_an_edit_of_the_shipped_files_stops_loading(
    name: str, edit: Edit, documents: Documents, load: Callable[..., Rulebook], shipped: Rulebook
) -> None:
    rule = shipped.rule(name)
    changed = edited(documents, rule, edit)
    if all(one.data == two.data for one, two in zip(documents, changed, strict=True)):
        pytest.skip("this rule reaches no such thing")
    with pytest.raises(Flawed) as stopped:
        load(changed)
    spoken_of = {name, *reached(rule), *(f"{fact}_x" for fact in rule.facts), "`crack`"}
    where = rule.place.file, range(rule.place.line, rule.place.end_line + 1)
    assert any(
        any(each in f"{flaw.message} {flaw.advice}".casefold() for each in spoken_of)
        or (flaw.place.file == where[0] and flaw.place.line in where[1])
        for flaw in stopped.value.flaws
    )
    assert all(each.advice for each in stopped.value.flaws)


def test_the_files_without_an_edit_load(documents: Documents, load: Callable[..., Rulebook]) -> None:
    assert {rule.id for rule in load(documents).rules if rule.sealed} == set(SEALED_IDS)


# House acts.


def withdraw(rule: Rule) -> str:
    return f"house: [{{withdraw: {rule.id}, {SIGNED}}}]"


def replace(rule: Rule) -> str:
    about = f"{{remedies: [{', '.join(rule.about.names)}]}}" if rule.about.names else rule.about.kind
    return f"""house:
  - replace: {rule.id}
    rule:
      id: {rule.id}
      title: Milder
      about: {about}
      holds_if: {{fact: damage.crack, equals: true}}
      finding: {{stance: advises_against}}
      because: Milder.
      source: {{kind: shop}}
      examples:
        - {{name: a, facts: {{damage.crack: true}}, expect: holds}}
        - {{name: b, facts: {{damage.crack: false}}, expect: fails}}
    {SIGNED.replace(', ', chr(10) + '    ')}
"""


def loosen(rule: Rule) -> str:
    if not rule.limits:
        return ""
    limit = door.load().limits[rule.limits[0]]
    to = limit.value + (-1 if limit.safe_side == "higher" else 1)
    unit = "" if limit.unit == "1" else f" {limit.unit}"
    return f"house: [{{change: {limit.id}, to: {to}{unit}, was: {limit.value}{unit}, {SIGNED}}}]"


@pytest.mark.parametrize("act", [withdraw, replace, loosen], ids=lambda each: each.__name__)
@pytest.mark.parametrize("name", SEALED_IDS)
def test_a_house_act_stops_loading(
    name: str, act: Callable[[Rule], str], documents: Documents, load: Callable[..., Rulebook], shipped: Rulebook
) -> None:
    text = act(shipped.rule(name))
    if not text:
        pytest.skip("this rule names no limit")
    with pytest.raises(Flawed) as stopped:
        load(documents, text)
    checks = {each.check for each in stopped.value.flaws}
    assert checks <= {"rules.house-sealed", "rules.house-looser", "rules.house-forbidden"}


SHADOW = """rules:
  - id: house.shadow
    title: Shadow
    about: {remedies: [press_as_is, press_with_compound, undersize_cup, oversize_cup, stepped_cup, ream, sleeve]}
    holds_if: {fact: damage.crack, known: true}
    finding: {stance: supports}
    because: All is well.
    source: {kind: shop}
    examples:
      - {name: a, facts: {damage.crack: true}, expect: holds}
      - {name: b, facts: {}, expect: fails}
    added: {reason: because, by: somebody, dated: 2026-01-01, review_by: 2030-01-01}
"""


@pytest.mark.parametrize("name", SEALED_IDS)
def test_a_supporting_rule_beside_it_changes_nothing(
    name: str, documents: Documents, load: Callable[..., Rulebook], shipped: Rulebook
) -> None:
    rule, before, after = shipped.rule(name), load(documents), load(documents, SHADOW)
    assert "house.shadow" in {each.id for each in after.rules}
    for example in rule.examples:
        derived = _derived(rule, example.facts)
        one, two = (decide(derived, book) for book in (before, after))
        held = {run.id: run.outcome for run in one.runs.frame}
        assert {run.id: run.outcome for run in two.runs.frame} == held
        if example.expect == "holds":
            assert not milder(standing_of(one, before), standing_of(two, after))
            assert two.frame.verdict != "proceed"
            for side in two.sides.values():
                assert side.chosen is None or side.chosen.option.remedy not in rule.about.names


def _derived(rule: Rule, facts: Any) -> Derived:
    """A frame with an option for each remedy, on which the facts of an example are known."""
    scoped = {scope: {name: value for name, value in facts.items() if CATALOGUE[name].scope == scope}
              for scope in ("frame", "side", "option")}  # fmt: skip
    remedies = ("press_as_is", "press_with_compound", "undersize_cup", "oversize_cup", "stepped_cup", "ream", "sleeve")
    options = tuple(OptionFacts(each, each, each, scoped["option"]) for each in remedies)
    sides = {name: SideFacts(scoped["side"], options) for name in SIDES}
    return Derived(scoped["frame"], sides, {}, False)
