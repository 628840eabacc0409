"""What must not change a decision, or may change it one way only, through the whole pipeline on shipped cases.

- Swapping the sides swaps the answer: `swapping_the_sides`.
- Wider spreads never turn a refusal into a clearance: `wider_spreads`.
- One more sign of damage never helps: `one_more_sign`.
- A reading that agrees with the rest, taken out, never clears what was unsettled: `without_a_reading`; put in, it never
  takes a clearance away: `a_reading_that_agrees`.
- The order of readings, instruments, signs and keys of a case changes nothing: `order_in_the_case`, `order_of_keys`.
- Nor does that of rule files, of keys and of rules in them: `order_of_rule_files`, `order_in_the_book`.
- Stricter limits, also by acts of a house, never make a remedy milder: `a_stricter_limit`, `house_acts`.
"""

import json
from collections.abc import Callable
from copy import deepcopy
from dataclasses import replace
from functools import lru_cache
from random import Random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from recommender.asking.candidates import candidates, sheet_of_side
from recommender.asking.rerun import decided, with_readings
from recommender.bench.load import LoadedCase, case_in
from recommender.deciding.contest import BEST_FIRST, CLEARED
from recommender.deciding.decide import Decision
from recommender.deriving.derived import SIDES, SideName
from recommender.metrology.model import posterior
from recommender.metrology.rows import coefficients
from recommender.reading.document import Document
from recommender.reading.shipped import shipped_cases, shipped_rules
from recommender.reading.yaml_reader import read_file, read_text
from recommender.rulebook.assemble import book_of
from recommender.rulebook.book import Limit, Rulebook
from recommender.rulebook.folders import read_folder
from recommender.rulebook.gather import Gathered, gather
from recommender.rulebook.house import with_house
from recommender.rulebook.load import load
from recommender.rulebook.seals import SEALED_IDS

STRICTNESS = {"refuse": 2, "measure_again": 1}
AGAINST = frozenset({"rules_out", "asks_first", "stops_work", "advises_against"})
OTHER: dict[SideName, SideName] = {"drive": "non_drive", "non_drive": "drive"}
some = settings(max_examples=8, deadline=None, derandomize=True)


def _names(*folders: str) -> list[str]:
    return sorted(f"{folder}/{path.name}" for folder in folders for path in (shipped_cases() / folder).glob("*.yaml"))


everything = st.sampled_from(_names("proceed", "measure_again", "refuse"))
proceeding, refused = st.sampled_from(_names("proceed")), st.sampled_from(_names("refuse"))


@lru_cache(maxsize=1)
def _book() -> Rulebook:
    return load()


@lru_cache(maxsize=64)
def _shipped(name: str) -> Decision:
    return decided(_case(_data(name)), _book())


def _data(name: str) -> dict[str, Any]:
    data = deepcopy(read_file(shipped_cases() / name).data)
    data.pop("expect", None)
    return data


def _case(data: dict[str, Any]) -> LoadedCase:
    return case_in(read_text("\n".join(f"{key}: {json.dumps(value)}" for key, value in data.items()), "case.yaml"))


def _outcomes(decision: Decision, order: Callable[[SideName], SideName] = lambda name: name) -> dict[str, Any]:
    """Return verdicts and what became of every remedy on each side, sides named by `order`."""
    found: dict[str, Any] = {"frame": decision.frame.verdict}
    for name in SIDES:
        side = decision.sides[order(name)]
        found[name] = (side.verdict, [(each.remedy.id, each.outcome) for each in side.remedies])
    return found


def _facts(decision: Decision) -> dict[str, Any]:
    """Return every number and word the sides were judged by."""
    return {
        f"{option.subject.split(' (in hand')[0]}/{fact}": (value.value, value.low, value.high, value.word)
        for name in SIDES for remedy in decision.sides[name].remedies for option in remedy.options
        for fact, value in option.option.facts.items()
    }


def _strict(verdict: str) -> int:
    return STRICTNESS.get(verdict, 0)


@some
@given(everything)
def test_swapping_the_sides_swaps_the_answer(name: str) -> None:
    data = _data(name)
    data["sides"] = {side: data["sides"][OTHER[side]] for side in SIDES}
    _swap(data.get("frame"), data.get("damage"), data.get("history"), data.get("parts"))
    assert _outcomes(decided(_case(data), _book()), OTHER.__getitem__) == _outcomes(_shipped(name))


def _swap(*given: Any) -> None:
    """Turn every `side` in these pieces to the other one."""
    for each in given:
        if isinstance(each, list):
            _swap(*each)
        elif isinstance(each, dict):
            if each.get("side") in OTHER:
                each["side"] = OTHER[each["side"]]
            _swap(*each.values())


@some
@given(refused, st.sampled_from([1.5, 2.0, 4.0]))
def test_wider_spreads_never_turn_a_refusal_into_a_clearance(name: str, wider: float) -> None:
    book = _book()
    kinds = {key: replace(each, error_limit=each.error_limit * wider, repeatability=each.repeatability * wider)
             for key, each in book.instruments.items()}
    spreads = {key: replace(each, value=each.value * wider) for key, each in book.spreads.items()}
    data = _data(name)
    for instrument in data["bench"].get("instruments", []):
        instrument.pop("error_limit", None)
    before = decided(_case(data), book)
    after = decided(_case(data), replace(book, instruments=kinds, spreads=spreads))
    for side in SIDES:
        if before.sides[side].verdict == "refuse":
            assert _strict(after.sides[side].verdict) >= 1


@some
@given(everything, st.sampled_from(["crack", "delamination", "loose_fibres", "disbond_line", "paint_bubbles",
                                    "white_powder", "polished_band", "crushed_lip", "bell_mouth", "lacquer_scratch",
                                    "mould_mark"]),
       st.sampled_from(["bore", "lip", "shell_outside", "port_edge", "insert_edge", "joint"]),
       st.sampled_from([*SIDES, "unknown"]))  # fmt: skip
def test_one_more_sign_of_damage_never_helps(name: str, sign: str, where: str, side: str) -> None:
    data = _data(name)
    data["damage"]["signs"] = [*data["damage"]["signs"], {"sign": sign, "where": where, "side": side}]
    before, after = _shipped(name), decided(_case(data), _book())
    assert _strict(after.frame.verdict) >= _strict(before.frame.verdict)
    for each in SIDES:
        assert _strict(after.sides[each].verdict) >= _strict(before.sides[each].verdict)


@some
@given(proceeding, st.sampled_from(SIDES), st.integers(0, 10**6))
def test_a_reading_that_agrees_never_takes_a_clearance_away(name: str, side: SideName, pick: int) -> None:
    """The same the other way round: without a reading that agrees with the rest nothing becomes clear."""
    case = _case(_data(name))
    sheet = sheet_of_side(case, side, _book())
    if not sheet.readings:
        return
    near = posterior(sheet).mean
    able = candidates(case, side, sheet, float(near[0]), _book())
    chosen = able[pick % len(able)]
    agreeing = float(near @ coefficients(chosen.depth, sheet.seat_depth, chosen.reading.sees, chosen.turn))
    row = (chosen.reading.instrument, chosen.depth, chosen.turn, agreeing + chosen.offset)
    more = decided(with_readings(case, side, [row]), _book())
    assert more.frame.verdict == _shipped(name).frame.verdict


@some
@given(everything, st.randoms(use_true_random=False))
def test_order_in_the_case_changes_nothing(name: str, random: Any) -> None:
    data = _data(name)
    keys = list(data)
    random.shuffle(keys)
    data = {key: data[key] for key in keys}
    for listed in (data["bench"].get("instruments"), data["damage"]["signs"],
                   *(data["sides"][side].get("readings") for side in SIDES)):
        if isinstance(listed, list):
            random.shuffle(listed)
    again = decided(_case(data), _book())
    assert _outcomes(again) == _outcomes(_shipped(name))
    assert _facts(again) == _facts(_shipped(name))


@some
@given(everything, st.sampled_from(SIDES), st.integers(0, 10**6))
def test_without_a_reading_that_agrees_nothing_unsettled_is_cleared(name: str, side: SideName, pick: int) -> None:
    """Two sheets that differ by one such reading: no remedy is cleared by the shorter one alone."""
    case = _case(_data(name))
    sheet = sheet_of_side(case, side, _book())
    if not sheet.readings:
        return
    near = posterior(sheet).mean
    able = candidates(case, side, sheet, float(near[0]), _book())
    if not able:
        return
    chosen = able[pick % len(able)]
    agreeing = float(near @ coefficients(chosen.depth, sheet.seat_depth, chosen.reading.sees, chosen.turn))
    row = (chosen.reading.instrument, chosen.depth, chosen.turn, agreeing + chosen.offset)
    longer, shorter = decided(with_readings(case, side, [row]), _book()), _shipped(name)
    for each in SIDES:
        with_it = {remedy.remedy.id: remedy.outcome for remedy in longer.sides[each].remedies}
        for remedy in shorter.sides[each].remedies:
            if with_it[remedy.remedy.id] == "unsettled":
                assert remedy.outcome not in CLEARED, (remedy.remedy.id, row)


def _mixed(data: Any, random: Any) -> Any:
    """Return data with the keys of every mapping in another order; lists, whose order may mean something, stay."""
    if isinstance(data, dict):
        keys = list(data)
        random.shuffle(keys)
        return {key: _mixed(data[key], random) for key in keys}
    return [_mixed(each, random) for each in data] if isinstance(data, list) else data


@some
@given(everything, st.randoms(use_true_random=False))
def test_order_of_keys_at_any_depth_of_a_case_changes_nothing(name: str, random: Any) -> None:
    again = decided(_case(_mixed(_data(name), random)), _book())
    assert _outcomes(again) == _outcomes(_shipped(name))
    assert _facts(again) == _facts(_shipped(name))


@lru_cache(maxsize=1)
def _documents() -> tuple[Document, ...]:
    return tuple(read_folder(shipped_rules()))


@pytest.mark.parametrize("seed", range(3))
def test_order_of_rule_files_and_of_keys_and_rules_in_them_changes_nothing(seed: int) -> None:
    """Save for the remedies, which are tried in the order they are written, and the rows of a grid, named by number."""
    random = Random(seed)
    mixed = []
    for each in _documents():
        data = dict(each.data) if "remedies" in each.data else _mixed(each.data, random)
        if "rules" in data:
            data["rules"] = random.sample(data["rules"], len(data["rules"]))
        mixed.append(replace(each, data=data))
    random.shuffle(mixed)
    book = book_of(gather(mixed), SEALED_IDS)
    assert book.fingerprint == _book().fingerprint
    for name in random.sample(_names("proceed", "measure_again", "refuse"), 3):
        again = decided(_case(_data(name)), book)
        assert _outcomes(again) == _outcomes(_shipped(name))
        assert _facts(again) == _facts(_shipped(name))


@some
@given(everything, st.randoms(use_true_random=False))
def test_order_in_the_book_changes_nothing(name: str, random: Any) -> None:
    book = _book()
    rules = list(book.rules)
    random.shuffle(rules)
    mixed = {key: dict(random.sample(list(getattr(book, key).items()), len(getattr(book, key))))
             for key in ("limits", "standards", "materials", "instruments", "spreads", "bearings", "parts", "words")}
    again = decided(_case(_data(name)), replace(book, rules=tuple(rules), **mixed))
    assert _outcomes(again) == _outcomes(_shipped(name))
    assert _facts(again) == _facts(_shipped(name))


def _only_against() -> list[str]:
    """Return the numeric limits that no rule asks as a reason to use a remedy."""
    book = _book()
    asked = {limit for rule in book.rules if rule.stance in AGAINST and rule.about.kind != "cause"
             for limit in rule.limits}
    helping = {limit for rule in book.rules if rule.stance not in AGAINST for limit in rule.limits}
    return sorted(limit for limit in asked - helping if isinstance(book.limits[limit], Limit))


@some
@given(everything, st.data())
def test_a_stricter_limit_never_makes_a_remedy_milder(name: str, data: st.DataObject) -> None:
    book = _book()
    limit = book.limits[data.draw(st.sampled_from(_only_against()))]
    by = data.draw(st.sampled_from([0.02, 0.2, 1.0])) * max(abs(limit.value), 1.0)
    stricter = replace(limit, value=limit.value + (by if limit.safe_side == "higher" else -by))
    after = decided(_case(_data(name)), replace(book, limits={**book.limits, limit.id: stricter}))
    for side in SIDES:
        was = {each.remedy.id: each.outcome for each in _shipped(name).sides[side].remedies}
        for each in after.sides[side].remedies:
            assert _rank(each.outcome) >= _rank(was[each.remedy.id]), (limit.id, each.remedy.id)


@lru_cache(maxsize=1)
def _gathered() -> Gathered:
    return gather(_documents())


@some
@given(everything, st.data())
def test_house_acts_that_only_tighten_never_make_a_remedy_milder(name: str, data: st.DataObject) -> None:
    may = [limit for limit in _only_against() if _book().limits[limit].shop_may in ("tighten", "move")]
    acts = []
    for each in data.draw(st.lists(st.sampled_from(may), min_size=1, max_size=3, unique=True)):
        limit = _book().limits[each]
        by = data.draw(st.sampled_from([0.02, 0.2])) * max(abs(limit.value), 1.0)
        to = round(limit.value + (by if limit.safe_side == "higher" else -by), 6)
        acts.append({"change": each, "to": f"{to!r} {limit.unit}", "was": limit.shown, "reason": "tighter", "by": "x",
                     "dated": "2026-01-05", "review_by": "2027-01-05"})
    text = read_text(f"house: {json.dumps(acts)}\n", "house.yaml")
    stricter = with_house(_book(), _gathered(), [text], None, SEALED_IDS)
    after = decided(_case(_data(name)), stricter)
    for side in SIDES:
        was = {each.remedy.id: each.outcome for each in _shipped(name).sides[side].remedies}
        for each in after.sides[side].remedies:
            assert _rank(each.outcome) >= _rank(was[each.remedy.id]), (acts, each.remedy.id)


def _rank(outcome: str) -> int:
    """Return how strict an outcome is; ruled out and not applicable alike mean that it is not done."""
    if outcome in CLEARED:
        return 0 if outcome == "cleared" else 1
    return min(BEST_FIRST.index(outcome), BEST_FIRST.index("ruled_out"))
