"""Flaws as data and as text."""

import pickle

from recommender.bench.load import FlawedCase
from recommender.ground.flaw import Flaw, Flawed, flaw
from recommender.ground.place import Place, whole_file

TEXT = "a: 1\nb: 2\n"


def test_a_flaw_shows_place_excerpt_and_advice() -> None:
    found = flaw("check", Place("f", 2, 4, 2, 5), TEXT, "wrong", "Write 3.")
    assert str(found).splitlines() == [
        "f:2:4: error: wrong [check]",
        "    2 | b: 2",
        "           ^",
        "      Write 3.",
    ]


def test_nothing_is_printed_for_what_is_missing() -> None:
    assert str(Flaw("check", whole_file("f"), "wrong", "")) == "f:1:1: error: wrong [check]"


def test_flaws_come_once_each_and_in_the_order_of_their_places() -> None:
    late, early = (flaw("check", Place("f", line, 1, line, 2), TEXT, "wrong", "") for line in (2, 1))
    refused = Flawed([late, early, late])
    assert refused.flaws == (early, late)
    assert str(refused) == f"{early}\n{late}"


def test_flaws_raised_in_a_worker_process_reach_the_one_that_started_it() -> None:
    late, early = (flaw("check", Place("f", line, 1, line, 2), TEXT, "wrong", "") for line in (2, 1))
    refused = pickle.loads(pickle.dumps(FlawedCase([late, early], ("crack",))))
    assert refused.flaws == (early, late)
    assert refused.signs == ("crack",)
    assert str(refused) == str(pickle.loads(pickle.dumps(Flawed([late, early])))) == f"{early}\n{late}"
