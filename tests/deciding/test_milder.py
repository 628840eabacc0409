"""Milder and stricter, per remedy and for the frame."""

import pytest

from recommender.deciding.answer import as_data
from recommender.deciding.milder import Standing, changes, milder, standing, standing_of_data

OUTCOMES = {"cleared": {}, "cleared_with_cautions": {"seat__port_near": True}, "unsettled": {"part__measured": None},
            "ruled_out": {"part__measured": False}}
ORDER = list(OUTCOMES)


def judged(bw, *rules, remedy="press_as_is", frame=None, **option):
    careful = bw.rule("careful", (remedy,), "advises_against", bw.yes("seat.port_near"))
    facts = {"seat__port_near": False} | option
    side = bw.side(bw.option(remedy, **facts))
    return bw.advice(bw.derived(side, side, **(frame or {})), bw.book(careful, *bw.usable(remedy), *rules))


@pytest.mark.parametrize("before", ORDER)
@pytest.mark.parametrize("after", ORDER)
def test_remedies_are_ranked(bw, before, after):
    found = changes(*(standing(judged(bw, **OUTCOMES[each])) for each in (before, after)))
    directions = {each.direction for each in found if each.where == "drive/press_as_is"}
    if before == after:
        assert found == ()
    else:
        assert directions == {"milder" if ORDER.index(after) < ORDER.index(before) else "stricter"}


def test_the_frame_is_ranked_through_stops_work(bw):
    stops = bw.rule("stop", "frame", "stops_work", bw.yes("damage.delamination"))
    found = [standing(judged(bw, stops, frame={"damage__delamination": each})) for each in (True, None, False)]
    assert [each.stops for each in found] == [2, 1, 0]
    assert milder(found[0], found[1])
    assert milder(found[1], found[2])
    assert not milder(found[2], found[0])


@pytest.mark.parametrize(("stricter", "looser"), [
    ("refuse", "measure_again"), ("measure_again", "held"), ("held", "press_as_is"), ("refuse", "press_as_is"),
])
def test_verdicts_are_ranked_from_refusal_to_work(stricter, looser):
    """Compared with the order in which the words are explained: refused, asked for more, held back, let through."""
    one, two = (Standing(0, {"drive": each}, {}, frozenset()) for each in (stricter, looser))
    assert [(each.direction, each.listed_milder) for each in changes(one, two)] == [("milder", True)]
    assert [(each.direction, each.listed_milder) for each in changes(two, one)] == [("stricter", False)]


@pytest.mark.parametrize(("before", "after"), [({"ream"}, {"ream"}), ({"ream"}, set()), (set(), {"ream"})])
def test_work_that_either_book_says_cannot_be_undone_stands_with_the_milder(before, after):
    one, two = (Standing(0, {"drive": verdict}, {}, frozenset(names))
                for verdict, names in (("press_as_is", before), ("ream", after)))  # fmt: skip
    assert milder(one, two)


def test_a_question_that_is_no_longer_asked_is_milder(bw):
    asks = bw.rule("ask", "frame", "asks_first", bw.yes("history.warranty_open"))
    frame = {"history__warranty_open": True}
    asked, silent = standing(judged(bw, asks, frame=frame)), standing(judged(bw, frame=frame))
    assert milder(asked, silent)
    assert not milder(silent, asked)


def test_another_remedy_is_other_and_one_that_cannot_be_undone_stands_with_the_milder(bw):
    press, ream = standing(judged(bw)), standing(judged(bw, remedy="ream"))
    towards = {each.where: each for each in changes(press, ream)}
    assert (towards["drive"].direction, towards["drive"].listed_milder) == ("other_remedy", True)
    back = {each.where: each for each in changes(ream, press)}
    assert (back["drive"].direction, back["drive"].listed_milder) == ("other_remedy", False)


def test_stored_data_stands_as_the_advice_did(bw):
    for option in OUTCOMES.values():
        made = judged(bw, **option)
        assert standing_of_data(as_data(made)) == standing(made)
