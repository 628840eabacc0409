"""The shipped cases meet everything the rule book knows: asked of the data, not of a list by hand."""

from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from statistics import mean
from typing import NamedTuple

import pytest

from recommender.bench.case import Case
from recommender.bench.load import load_case
from recommender.bench.readings import points
from recommender.bench.sides import Side
from recommender.bench.words import words_used
from recommender.deciding.decide import Decision, decide
from recommender.deciding.runs import Run, every_run
from recommender.deriving.derive import derive
from recommender.logic.conditions import NUMBER_OPS, leaves_of
from recommender.logic.evaluate import checks_of
from recommender.logic.near import closeness
from recommender.rulebook.book import Rulebook
from recommender.rulebook.load import load
from recommender.trials.coverage import seen_in
from recommender.trials.run_cases import case_files

CASES = Path(__file__).resolve().parents[2] / "cases"
FILES = case_files(CASES)


class Judged(NamedTuple):
    """A shipped case with every run of every rule on it."""

    case: Case
    decision: Decision
    runs: tuple[Run, ...]


@cache
def book() -> Rulebook:
    return load()


@cache
def judged(path: Path) -> Judged:
    loaded = load_case(path)
    decision = decide(derive(loaded, book()), book())
    return Judged(loaded.case, decision, tuple(every_run(decision.runs)))


def every_case() -> Iterator[Judged]:
    return map(judged, FILES)


@cache
def outcomes() -> dict[str, set[str]]:
    """Return the outcomes each rule has over all cases."""
    found: dict[str, set[str]] = defaultdict(set)
    for each in every_case():
        for run in each.runs:
            found[run.rule.id].add(run.outcome)
    return dict(found)


@cache
def words_met() -> dict[str, set[str]]:
    found: dict[str, set[str]] = defaultdict(set)
    for each in every_case():
        for used in words_used(each.case):
            found[used.list_name].add(used.word)
    return dict(found)


# What a shop has or has not: shipped as wide as the trade goes, so that only a shop's own limit makes them hold.
# `test_shop_limits.py` tries each of them with such a limit on a shipped case.
OF_THE_SHOP = {
    "bond.peels-in-the-cold", "bond.too-weak", "shop.no-reamer-that-large", "sleeve.bond-line-out-of-range",
    "sleeve.wall-too-thin",
}  # fmt: skip


def test_every_rule_is_met_in_holds_and_in_fails() -> None:
    wanted = {rule.id: {"fails"} if rule.id in OF_THE_SHOP else {"holds", "fails"} for rule in book().rules}
    missing = {rule: each - outcomes().get(rule, set()) for rule, each in wanted.items()}
    assert {rule: sorted(each) for rule, each in missing.items() if each} == {}


def test_what_only_a_shop_makes_hold_is_tried_with_its_limits() -> None:
    tried = (Path(__file__).parent / "test_shop_limits.py").read_text(encoding="utf-8")
    assert {rule for rule in OF_THE_SHOP if f'"{rule}"' not in tried} == set()


def test_nearly_every_comparison_is_shown_both_ways() -> None:
    seen: dict[tuple[str, int], set[str]] = defaultdict(set)
    for each in every_case():
        for run in each.runs:
            for index, check in enumerate(checks_of(run.result)):
                seen[run.rule.id, index].update(seen_in(check))
    wanted = {(rule.id, index) for rule in book().rules for index, _ in enumerate(leaves_of(rule.condition))}
    short = {key for key in wanted if not {"holds", "fails"} <= seen[key]}
    assert 1 - len(short) / len(wanted) >= 0.95, sorted(short)


@pytest.mark.parametrize("kind", sorted({*load().words, "standards", "instruments"}))
def test_every_word_of_a_case_is_met(kind: str) -> None:
    described = {"standards": book().standards, "instruments": book().instruments}
    assert set(described.get(kind) or book().words[kind]) - words_met().get(kind, set()) == set()


def test_a_frame_without_a_label_is_met() -> None:
    assert any(each.case.frame.standard == "unknown" for each in every_case())


def test_every_remedy_is_decided_for() -> None:
    decided = {side.chosen.option.remedy for each in every_case() for side in each.decision.sides.values()
               if side.chosen is not None}  # fmt: skip
    assert {remedy.id for remedy in book().remedies} - decided == set()


@pytest.mark.parametrize("part", sorted(load().parts))
def test_every_part_is_met(part: str) -> None:
    options = {option.option.part_id for each in every_case() for side in each.decision.runs.sides.values()
               for option in side.options}  # fmt: skip
    assert part in options


@pytest.mark.parametrize("cause", sorted(load().causes))
def test_every_cause_has_evidence_for_and_against(cause: str) -> None:
    stances = {run.rule.stance for each in every_case() for run in each.runs
               if run.outcome == "holds" and run.rule.about.kind == "cause"
               and cause in run.rule.about.names}  # fmt: skip
    assert stances == {"supports", "advises_against"}


def test_every_contradiction_and_every_missing_thing_is_met() -> None:
    """Whatever asks first must have asked in a case; what asks `known: false` must have found nothing known."""
    asking = {rule.id for rule in book().rules if rule.stance == "asks_first"}
    unknown = {rule.id: [leaf for leaf in leaves_of(rule.condition) if leaf.op == "known" and not leaf.wanted[0].value]
               for rule in book().rules}  # fmt: skip
    lacking = {rule for rule, leaves in unknown.items() if leaves}
    assert {rule for rule in asking | lacking if "holds" not in outcomes()[rule]} == set()


def near_a_limit(each: Judged) -> bool:
    """Return whether a rule the case expects something of is decided within 2 um or 5 % of a limit, or left open."""
    expect = each.case.expect
    assert expect is not None
    expected = [run for run in each.runs if run.rule.id in expect.rules and run.outcome == expect.rules[run.rule.id]]
    return any(
        check.leaf.op in NUMBER_OPS
        and check.found.value is not None
        and any(abs(check.found.value - float(limit.value)) <= closeness(check.leaf.fact, float(limit.value))
                for limit in check.leaf.wanted)
        for run in expected for check in run.deciding
    )  # fmt: skip


def nothing_wrong(each: Judged) -> bool:
    """Return whether nobody complains, nothing was seen, and both sides are pressed with what is at hand."""
    case, expect = each.case, each.case.expect
    assert expect is not None
    return (
        not case.history.symptoms and not case.damage.signs and expect.frame == "proceed"
        and {expect.drive, expect.non_drive} == {"press_as_is"}
    )  # fmt: skip


def naive_press(case: Case) -> bool | None:
    """Return what somebody would say who compares the mean of each bore's readings with the standard's size.

    In its limits, or within 50 um of its nominal where none is published, on both sides: press. Otherwise: do not.
    None where there is nothing to compare.
    """
    standard = book().standards.get(case.frame.standard)
    means = [mean(found) for _, side in case.sides.items() if (found := _read(side))]
    if standard is None or len(means) < 2:
        return None
    lower, upper = standard.bore.lower, standard.bore.upper
    if lower is None or upper is None:
        lower, upper = standard.bore.nominal - 0.05, standard.bore.nominal + 0.05
    return all(lower <= each <= upper for each in means)


def _read(side: Side) -> list[float]:
    return [point.value for block in side.readings or () for point in points(block, ()) if point.struck is None]


def test_enough_cases_lie_near_a_limit() -> None:
    assert len([each.case.case for each in every_case() if near_a_limit(each)]) >= 10


def test_enough_cases_have_nothing_wrong() -> None:
    assert len([each.case.case for each in every_case() if nothing_wrong(each)]) >= 10


def test_enough_cases_a_naive_reader_gets_wrong() -> None:
    wrong = [each.case.case for each in every_case()
             if each.case.expect is not None and naive_press(each.case) is not None
             and naive_press(each.case) != (each.case.expect.frame == "proceed")]  # fmt: skip
    assert len(wrong) >= 5
