from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recommender.facts.fact import Fact
from recommender.facts.value import FactValue, not_applicable, number, unknown, word
from recommender.ground.place import whole_file
from recommender.logic.conditions import Group, Leaf, Operand, facts_of, leaves_of, limits_of
from recommender.logic.evaluate import Check, GroupResult, checks_of, deciding_checks, evaluate, outcome_of

MakeLeaf = Callable[..., Leaf]
HERE = whole_file("rules.yaml")
GAP = Fact("gap", "side", "number", "gap", "A gap.", "measured", "reading", "measure it", "um", (-100.0, 100.0))
COLOUR = Fact("colour", "side", "word", "colour", "A colour.", "seen", "inspection", "look", words=("red", "blue"))
BENT = Fact("bent", "side", "flag", "bent", "Bent or not.", "seen", "inspection", "look")


def _leaf(fact: Fact, op: Any, *wanted: float | str | bool) -> Leaf:
    return Leaf(fact, op, tuple(Operand(each, None, str(each)) for each in wanted), HERE)


def check(leaf: Leaf, found: FactValue) -> Check:
    result = evaluate(leaf, {found.fact: found})
    assert isinstance(result, Check)
    return result


@pytest.mark.parametrize(
    ("op", "wanted", "value", "outcome", "margin"),
    [
        ("at_least", (10,), 10, "holds", 0),
        ("at_least", (10,), 9.99, "fails", -0.01),
        ("at_most", (10,), 10, "holds", 0),
        ("at_most", (10,), 10.01, "fails", -0.01),
        ("above", (10,), 10, "fails", 0),
        ("above", (10,), 12, "holds", 2),
        ("below", (10,), 10, "fails", 0),
        ("below", (10,), 8, "holds", 2),
        ("between", (10, 20), 10, "holds", 0),
        ("between", (10, 20), 20, "holds", 0),
        ("between", (10, 20), 13, "holds", 3),
        ("between", (10, 20), 22, "fails", -2),
        ("between", (10, 20), 7, "fails", -3),
    ],
)
def test_exact_numbers(leaf: MakeLeaf, op: str, wanted: Any, value: float, outcome: str, margin: float) -> None:
    found = check(leaf(op, *wanted), number("gap", value))
    assert (found.outcome, found.margin, found.spreads) == (outcome, margin, None)


@pytest.mark.parametrize(
    ("op", "wanted", "low", "high", "outcome", "margin", "spreads"),
    [
        ("at_least", (10,), 12, 16, "holds", 2, 1),
        ("at_least", (10,), 4, 8, "fails", -2, -1),
        ("at_least", (10,), 8, 16, "undecided", 2, 0.5),
        ("at_least", (10,), 4, 12, "undecided", -2, -0.5),
        ("below", (10,), 4, 8, "holds", 2, 1),
        ("below", (10,), 12, 16, "fails", -2, -1),
        ("below", (10,), 4, 12, "undecided", 2, 0.5),
        ("between", (10, 20), 12, 16, "holds", 2, 1),
        ("between", (10, 20), 22, 26, "fails", -2, -1),
        ("between", (10, 20), 14, 22, "undecided", 2, 0.5),
        ("between", (10, 20), 5, 25, "undecided", 5, 0.5),
    ],
)
def test_the_whole_interval_decides(
    leaf: MakeLeaf, op: str, wanted: Any, low: float, high: float, outcome: str, margin: float, spreads: float
) -> None:
    found = check(leaf(op, *wanted), number("gap", (low + high) / 2, low, high))
    assert (found.outcome, found.margin, found.spreads) == (outcome, margin, spreads)


def test_closer_than_three_sampling_errors_is_undecided(leaf: MakeLeaf) -> None:
    near = number("gap", 12.9, 10.9, 14.9, sampling=0.31)
    clear = number("gap", 12.9, 10.9, 14.9, sampling=0.29)
    assert check(leaf("above", 10), near).outcome == "undecided"
    assert check(leaf("above", 10), clear).outcome == "holds"
    assert check(leaf("below", 10), near).outcome == "undecided"
    assert check(leaf("below", 10), clear).outcome == "fails"


def test_a_limit_inside_the_interval_that_decides_is_undecided(leaf: MakeLeaf) -> None:
    near = number("gap", 12.9, 10.9, 14.9, beyond=1.0)
    clear = number("gap", 12.9, 10.9, 14.9, beyond=0.8)
    assert check(leaf("above", 10), near).outcome == "undecided"
    assert "between 9.9" in check(leaf("above", 10), near).why
    assert check(leaf("above", 10), clear).outcome == "holds"


def test_an_exact_number_within_its_sampling_error_says_so(leaf: MakeLeaf) -> None:
    found = check(leaf("above", 10), number("gap", 10.1, sampling=0.1))
    assert (found.outcome, found.why) == ("undecided", "closer to 10 um than the calculation resolves")


@pytest.mark.parametrize("op", ["at_least", "at_most", "above", "below"])
def test_a_number_that_is_none_never_decides(leaf: MakeLeaf, op: str) -> None:
    for broken in (float("nan"), float("inf"), float("-inf")):
        assert check(leaf(op, 10), FactValue("gap", broken, broken, broken)).outcome == "undecided"
        assert check(leaf(op, 10), FactValue("gap", 0.0, -1.0, 1.0, sampling=broken)).outcome == "undecided"


@pytest.mark.parametrize("op", ["at_least", "at_most", "above", "below"])
def test_unknown_numbers_are_undecided_and_say_why(leaf: MakeLeaf, op: str) -> None:
    found = check(leaf(op, 10), unknown("gap", "the bore was not read"))
    assert (found.outcome, found.margin, found.why) == ("undecided", None, "unknown: the bore was not read")


def test_a_fact_that_is_not_given_is_unknown(leaf: MakeLeaf) -> None:
    assert evaluate(leaf("above", 10), {}).outcome == "undecided"
    assert evaluate(leaf("known", False), {}).outcome == "holds"


@pytest.mark.parametrize(
    ("op", "wanted", "found", "outcome"),
    [
        ("equals", ("red",), "red", "holds"),
        ("equals", ("red",), "blue", "fails"),
        ("one_of", ("red", "blue"), "blue", "holds"),
        ("one_of", ("red",), "blue", "fails"),
        ("equals", ("red",), None, "undecided"),
        ("one_of", ("red", "blue"), None, "undecided"),
        ("known", (True,), "red", "holds"),
        ("known", (False,), "red", "fails"),
        ("known", (True,), None, "fails"),
        ("known", (False,), None, "holds"),
    ],
)
def test_words(leaf: MakeLeaf, op: str, wanted: Any, found: str | None, outcome: str) -> None:
    value = unknown("colour", "not seen") if found is None else word("colour", found)
    assert check(leaf(op, *wanted, fact=COLOUR), value).outcome == outcome


@pytest.mark.parametrize(("wanted", "found", "outcome"), [
    (True, True, "holds"), (True, False, "fails"), (False, False, "holds"), (False, True, "fails"),
])
def test_flags(leaf: MakeLeaf, wanted: bool, found: bool, outcome: str) -> None:
    assert check(leaf("equals", wanted, fact=BENT), word("bent", found)).outcome == outcome
    assert check(leaf("equals", wanted, fact=BENT), unknown("bent", "not seen")).outcome == "undecided"


def test_a_flag_is_not_a_word(leaf: MakeLeaf) -> None:
    assert check(leaf("equals", "True", fact=BENT), word("bent", True)).outcome == "fails"


def test_every_leaf_is_evaluated_although_the_first_decides(leaf: MakeLeaf) -> None:
    group = Group("every", (leaf("above", 10), leaf("below", -10), leaf("at_least", 3)), HERE)
    result = evaluate(group, {"gap": number("gap", 5)})
    assert isinstance(result, GroupResult)
    assert result.outcome == "fails"
    assert [each.margin for each in checks_of(result)] == [-5, -15, 2]


@pytest.mark.parametrize(
    ("kind", "values", "outcome", "deciding"),
    [
        ("every", ("holds", "holds"), "holds", [0, 1]),
        ("every", ("holds", "fails", "undecided"), "fails", [1]),
        ("every", ("holds", "undecided"), "undecided", [1]),
        ("some", ("holds", "fails", "undecided"), "holds", [0]),
        ("some", ("fails", "fails"), "fails", [0, 1]),
        ("some", ("fails", "undecided"), "undecided", [1]),
        ("none_of", ("fails", "fails"), "holds", [0, 1]),
        ("none_of", ("fails", "holds", "undecided"), "fails", [1]),
        ("none_of", ("fails", "undecided"), "undecided", [1]),
    ],
)
def test_deciding_checks(kind: Any, values: tuple[str, ...], outcome: str, deciding: list[int]) -> None:
    facts = [GAP._replace(id=f"gap{number_}") for number_ in range(len(values))]
    made = {"holds": number("x", 5), "fails": number("x", -5), "undecided": unknown("x", "")}
    group = Group(kind, tuple(Leaf(fact, "above", (Operand(0.0, None, "0 um"),), HERE) for fact in facts), HERE)
    result = evaluate(group, {fact.id: made[value] for fact, value in zip(facts, values, strict=True)})
    assert result.outcome == outcome
    assert [each.leaf.fact.id for each in deciding_checks(result)] == [f"gap{index}" for index in deciding]


def test_deciding_checks_through_nested_groups(leaf: MakeLeaf) -> None:
    inner = Group("none_of", (leaf("above", 10), leaf("above", 0)), HERE)
    result = evaluate(Group("every", (leaf("above", 0), inner), HERE), {"gap": number("gap", 5)})
    assert result.outcome == "fails"
    assert [(each.outcome, each.margin) for each in deciding_checks(result)] == [("holds", 5)]


def test_what_a_condition_reaches(leaf: MakeLeaf) -> None:
    bounded = Leaf(GAP, "between", (Operand(1.0, "gap.low", "1 um"), Operand(2.0, "gap.high", "2 um")), HERE)
    group = Group("some", (bounded, Group("every", (leaf("equals", "red", fact=COLOUR), bounded), HERE)), HERE)
    assert limits_of(group) == ("gap.low", "gap.high")
    assert facts_of(group) == ("gap", "colour")
    assert [each.op for each in leaves_of(group)] == ["between", "equals", "between"]


finite = st.floats(-1000, 1000).map(lambda each: round(each, 2))
OPPOSITES = [("at_least", "below"), ("at_most", "above")]


@given(finite, st.lists(finite, min_size=3, max_size=3), st.sampled_from(OPPOSITES))
def test_opposite_comparisons_never_hold_together(limit: float, ends: list[float], ops: tuple[str, str]) -> None:
    low, middle, high = sorted(ends)
    found = number("gap", middle, low, high)
    one, other = (
        check(Leaf(GAP, op, (Operand(limit, None, ""),), HERE), found) for op in ops  # type: ignore[arg-type]
    )
    assert {one.outcome, other.outcome} in ({"holds", "fails"}, {"undecided"})
    assert one.margin is not None
    assert other.margin == -one.margin
    if one.outcome != "undecided":
        assert (one.margin >= 0) if one.outcome == "holds" else (one.margin <= 0)


@given(finite, st.lists(finite, min_size=3, max_size=3), st.floats(0, 100))
def test_a_wider_interval_never_decides_what_a_narrower_left_open(limit: float, ends: list[float], by: float) -> None:
    low, middle, high = sorted(ends)
    leaf = Leaf(GAP, "at_least", (Operand(limit, None, ""),), HERE)
    narrow = check(leaf, number("gap", middle, low, high)).outcome
    wide = check(leaf, number("gap", middle, low - by, high + by)).outcome
    assert wide in (narrow, "undecided")


NUMBERS = st.floats(-30, 30) | st.sampled_from((-5.0, 0.0, 5.0, float("inf"), float("nan")))
FOUND = {
    GAP.id: st.none()
    | st.sampled_from((unknown("gap", "not read"), not_applicable("gap", "no bore here")))
    | st.just(word("gap", "red"))
    | st.builds(lambda ends, room: FactValue("gap", ends[1], ends[0], ends[2], sampling=room),
                st.tuples(NUMBERS, NUMBERS, NUMBERS).map(sorted), st.sampled_from((0.0, 0.5))),
    COLOUR.id: st.none() | st.sampled_from(("red", "blue", True)).map(lambda each: word("colour", each)),
    BENT.id: st.none() | st.booleans().map(lambda each: word("bent", each)),
}  # fmt: skip
LEAVES = (
    st.builds(lambda op, limit: _leaf(GAP, op, limit), st.sampled_from(("at_least", "at_most", "above", "below")),
              st.sampled_from((-5.0, 0.0, 5.0)))
    | st.sampled_from((_leaf(GAP, "between", -5.0, 5.0), _leaf(GAP, "known", True), _leaf(COLOUR, "known", False),
                       _leaf(COLOUR, "one_of", "red", "blue"), _leaf(COLOUR, "equals", "red"),
                       _leaf(BENT, "equals", True)))
)  # fmt: skip
CONDITIONS = st.recursive(
    LEAVES,
    lambda inner: st.builds(
        lambda kind, parts: Group(kind, tuple(parts), HERE),
        st.sampled_from(("every", "some", "none_of")), st.lists(inner, min_size=1, max_size=3),
    ),
    max_leaves=8,
)  # fmt: skip


@given(CONDITIONS, st.fixed_dictionaries(FOUND))
def test_the_outcome_alone_is_that_of_all_checks(condition: Any, found: dict[str, FactValue | None]) -> None:
    facts = {name: each for name, each in found.items() if each is not None}
    assert outcome_of(condition, facts) == evaluate(condition, facts).outcome


@pytest.mark.parametrize("op", ["above", "below", "equals", "known"])
@pytest.mark.parametrize("wanted", [10, True, False])
def test_no_comparison_holds_of_a_fact_that_does_not_apply(leaf: MakeLeaf, op: str, wanted: int | bool) -> None:
    assert check(leaf(op, wanted), not_applicable("gap", "no bore here")).outcome == "fails"
