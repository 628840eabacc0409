"""Three-valued logic against its truth tables and the laws that must hold."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recommender.logic.outcome import Outcome, every, none_of, opposite, some

OUTCOMES: tuple[Outcome, ...] = ("fails", "undecided", "holds")
outcomes = st.lists(st.sampled_from(OUTCOMES), min_size=1, max_size=8)


@pytest.mark.parametrize(("left", "right"), list(product(OUTCOMES, repeat=2)))
def test_every_takes_the_worse_and_some_the_better_of_two(left: Outcome, right: Outcome) -> None:
    rank = OUTCOMES.index
    assert every([left, right]) == min(left, right, key=rank)
    assert some([left, right]) == max(left, right, key=rank)


@pytest.mark.parametrize(
    ("left", "right", "expected"),
    [
        ("fails", "fails", "holds"),
        ("fails", "undecided", "undecided"),
        ("fails", "holds", "fails"),
        ("undecided", "undecided", "undecided"),
        ("undecided", "holds", "fails"),
        ("holds", "holds", "fails"),
    ],
)
def test_none_of(left: Outcome, right: Outcome, expected: Outcome) -> None:
    assert none_of([left, right]) == none_of([right, left]) == expected


@given(outcomes)
def test_de_morgan(given_outcomes: list[Outcome]) -> None:
    turned = [opposite(each) for each in given_outcomes]
    assert opposite(every(given_outcomes)) == some(turned)
    assert none_of(given_outcomes) == every(turned)


@given(outcomes)
def test_settling_an_undecided_part_never_turns_a_decided_group(given_outcomes: list[Outcome]) -> None:
    choices: list[tuple[Outcome, ...]] = [
        ("holds", "fails") if each == "undecided" else (each,) for each in given_outcomes
    ]
    for combine in (every, some, none_of):
        before = combine(given_outcomes)
        after = {combine(settled) for settled in product(*choices)}
        assert "undecided" not in after
        assert before == "undecided" or after == {before}
        assert before != "undecided" or after == {"holds", "fails"}


@given(st.permutations(["holds", "fails", "undecided"]))
def test_order_does_not_matter(shuffled: list[Outcome]) -> None:
    assert (every(shuffled), some(shuffled), none_of(shuffled)) == ("fails", "holds", "fails")
