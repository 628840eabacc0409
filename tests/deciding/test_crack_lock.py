"""A crack that was seen stops the work in code, whatever the rule book says."""

import pytest

from recommender.deciding.crack_lock import crack_stops_work


@pytest.mark.parametrize(("sign", "fact", "stops"), [
    (True, None, True), (True, False, True), (False, True, True), (False, False, False), (False, None, False),
])
def test_sign_or_fact_is_enough(bw, sign, fact, stops):
    assert crack_stops_work(bw.derived(crack=sign, damage__crack=fact)) is stops


def test_a_book_without_any_rule_on_cracks_refuses_all_the_same(bw):
    made = bw.advice(bw.derived(crack=True), bw.book(*bw.usable("press_as_is")))
    assert (made.frame.verdict, made.frame.damage) == ("refuse", True)
    assert made.notices[0].text.startswith("A crack was seen.")


def test_a_book_that_asks_first_cannot_soften_a_crack_to_measure_again(bw):
    asks = bw.rule("ask", "frame", "asks_first", bw.yes("damage.crack"))
    assert bw.advice(bw.derived(crack=True), bw.book(asks)).sides["drive"].verdict == "refuse"


def test_the_verdict_rests_on_the_crack(bw):
    trace = bw.advice(bw.derived(crack=True, damage__crack=True), bw.book()).trace
    assert "frame/damage.crack" in {node.id for node in trace.walk("verdict/frame")}
