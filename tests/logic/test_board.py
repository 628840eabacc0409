"""The compiled form of conditions against the plain evaluator, over any conditions and any facts."""

from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from recommender.facts.fact import Fact
from recommender.facts.value import FactValue, number, unknown, word
from recommender.ground.place import whole_file
from recommender.logic.board import Board
from recommender.logic.conditions import Condition, Group, Leaf, Operand
from recommender.logic.evaluate import checks_of, evaluate

HERE = whole_file("rules.yaml")
NUMBERS = tuple(
    Fact(name, "side", "number", name, name, "measured", "reading", "measure it", "um") for name in ("gap", "wall")
)
COLOUR = Fact("colour", "side", "word", "colour", "A colour.", "seen", "inspection", "look", words=("red", "blue"))
BENT = Fact("bent", "side", "flag", "bent", "Bent or not.", "seen", "inspection", "look")
LIMITS = st.sampled_from([-1.0, 0.0, 0.5, 1.0, 2.0])
ENDS = st.one_of(LIMITS, st.floats(-3, 3), st.sampled_from([float("inf"), float("-inf"), 1e-9]))


def _leaf(fact: Fact, op: str, *wanted: float | str | bool) -> Leaf:
    return Leaf(fact, op, tuple(Operand(each, None, str(each)) for each in wanted), HERE)  # type: ignore[arg-type]


LEAVES = st.one_of(
    st.builds(_leaf, st.sampled_from(NUMBERS), st.sampled_from(["at_least", "at_most", "above", "below"]), LIMITS),
    st.builds(_leaf, st.sampled_from(NUMBERS), st.just("between"), LIMITS, LIMITS),
    st.builds(_leaf, st.just(COLOUR), st.just("equals"), st.sampled_from(COLOUR.words)),
    st.builds(_leaf, st.just(COLOUR), st.just("one_of"), st.just("red"), st.just("blue")),
    st.builds(_leaf, st.just(BENT), st.just("equals"), st.booleans()),
    st.builds(_leaf, st.sampled_from([*NUMBERS, COLOUR, BENT]), st.just("known"), st.booleans()),
)
CONDITIONS: st.SearchStrategy[Condition] = st.recursive(
    LEAVES,
    lambda parts: st.builds(
        lambda kind, held: Group(kind, tuple(held), HERE),
        st.sampled_from(["every", "some", "none_of"]), st.lists(parts, min_size=1, max_size=3),
    ),
    max_leaves=6,
)


@st.composite
def interval(draw: st.DrawFn, name: str) -> FactValue:
    low, value, high = sorted((draw(ENDS), draw(ENDS), draw(ENDS)))
    return FactValue(name, value, low, high, sampling=draw(st.sampled_from([0.0, 0.0, 0.1, 0.5])),
                     beyond=draw(st.sampled_from([0.0, 0.0, 0.7])))


def known(name: str) -> st.SearchStrategy[FactValue | None]:
    exact = ENDS.map(lambda at: number(name, at))
    return st.one_of(st.none(), st.just(unknown(name, "not seen")), interval(name), exact)


FACTS = st.fixed_dictionaries({
    "gap": known("gap"), "wall": known("wall"),
    "colour": st.sampled_from([None, unknown("colour", ""), word("colour", "red"), word("colour", "green"),
                                unknown("colour", "")._replace(could_be=("red", "green")),
                                unknown("colour", "")._replace(could_be=("red", "blue")),
                                unknown("colour", "")._replace(applies=False)]),
    "bent": st.sampled_from([None, word("bent", True), word("bent", False)]),
}).map(lambda facts: {name: each for name, each in facts.items() if each is not None})  # fmt: skip


@settings(max_examples=400)
@given(st.lists(CONDITIONS, min_size=1, max_size=5), st.lists(FACTS, min_size=1, max_size=6))
def test_every_leaf_and_condition_comes_out_as_the_plain_evaluator_says(
    conditions: list[Condition], many: list[dict[str, FactValue]]
) -> None:
    board = Board(conditions)
    for facts in many:
        results = [evaluate(each, facts) for each in conditions]
        marks = board.mark(facts)
        assert board.outcomes(marks) == [each.outcome for each in results]
        assert board.leaf_outcomes(marks) == [check.outcome for each in results for check in checks_of(each)]
        assert board.holding(marks) == [place for place, each in enumerate(results) if each.outcome == "holds"]


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_a_number_that_is_none_is_never_clear_of_a_limit(leaf: Callable[..., Leaf], value: float) -> None:
    board = Board([leaf("at_most", 10.0), leaf("at_least", 10.0)])
    for found in (FactValue("gap", value, value, value), FactValue("gap", 5.0, value, value)):
        assert board.outcomes(board.mark({"gap": found})) == ["undecided", "undecided"]
        assert board.outcomes(board.mark({"gap": number("gap", 5.0)})) == ["holds", "fails"]
