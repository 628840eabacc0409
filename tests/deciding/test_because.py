"""Values and sentences as people read them."""

import pytest

from recommender.deciding.because import check_shown, filled, margin_shown, shown_fact, wanted
from recommender.facts.catalogue import CATALOGUE
from recommender.facts.value import number
from recommender.logic.evaluate import evaluate


@pytest.mark.parametrize(("fact", "given", "text"), [
    ("fit.mean_interference", (60, 57, 63), "60.0 um (57.0 to 63.0 um)"),
    ("bore.mean_diameter", (45.972, 45.969, 45.975), "45.972 mm (45.969 to 45.975 mm)"),
    ("bore.mean_diameter", 45.972, "45.972 mm"),
    ("evidence.readings", 12, "12"),
    ("evidence.readings", (12, 11, 13), "12 (11 to 13)"),
    ("damage.crack", True, "yes"),
    ("damage.crack", False, "no"),
    ("bore.cleaned", "not_cleaned", "not cleaned"),
    ("damage.crack", None, "unknown (not looked at)"),
])
def test_a_fact_is_shown_with_unit_and_spread(bw, fact, given, text):
    assert shown_fact(bw.value(fact, given), CATALOGUE[fact]) == text


def test_placeholders_are_filled_in_one_pass_and_other_braces_stay(bw):
    assert filled("{a.b} and {not one} and {0!r} {c}", {"a.b": "{c}", "c": "3"}.get) == "{c} and {not one} and {0!r} 3"


def test_the_sentence_of_a_finding_carries_numbers_and_limits(bw):
    bar = bw.rule("loose", ("press_as_is",), "rules_out", bw.leaf("fit.mean_interference", "below", "grip.least"),
                  because="Interference {fit.mean_interference} is under {grip.least}.")
    side = bw.side(bw.option("press_as_is", fit__mean_interference=(2, 1, 3)))
    made = bw.advice(bw.derived(side), bw.book(bar, *bw.usable("press_as_is")))
    (finding,) = made.sides["drive"].stopped_by
    assert finding.text == "Interference 2.0 um (1.0 to 3.0 um) is under 10.0 um."
    assert finding.checks[0].wanted == "below 10.0 um (grip.least)"
    assert (finding.checks[0].margin, finding.checks[0].unit, finding.checks[0].spreads) == (7.0, "um", 7.0)
    assert finding.checks[0].node in made.trace.nodes


def test_an_undecided_finding_does_not_claim_what_its_sentence_says(bw):
    bar = bw.rule("loose", ("press_as_is",), "rules_out", bw.leaf("fit.mean_interference", "below", "grip.least"),
                  because="Interference {fit.mean_interference} is under {grip.least}.")
    side = bw.side(bw.option("press_as_is", fit__mean_interference=(12, 9, 14)))
    made = bw.advice(bw.derived(side), bw.book(bar, *bw.usable("press_as_is")))
    text = next(each.text for each in made.sides["drive"].stopped_by)
    assert text == (
        "loose: not settled, mean interference 12.0 um (9.0 to 14.0 um) is not clear of 10.0 um (least interference)."
    )


def test_what_stands_in_braces_and_is_neither_fact_nor_limit_stays_as_it_is(bw):
    reason = bw.rule("words", ("press_as_is",), "supports", bw.yes("part.suits_shell"), because="As {nobody.knows}.")
    made = bw.advice(bw.derived(), bw.book(reason, *bw.usable("press_as_is")))
    texts = {each.text for remedy in made.sides["drive"].remedies for option in remedy.options
             for each in option.findings if each.rule == "words"}  # fmt: skip
    assert texts == {"As {nobody.knows}."}


@pytest.mark.parametrize(("found", "said"), [
    (number("fit.mean_interference", 14, 11, 17, beyond=2), "; at the confidence asked of a decision it may be 9.0 um"),
    (number("fit.mean_interference", 6, 3, 9, beyond=2), "; at the confidence asked of a decision it may be 11.0 um"),
    (number("fit.mean_interference", 14, 9, 17, beyond=2), ""),
    (number("fit.mean_interference", 6, 3, 10, beyond=2), ""),
    (number("fit.mean_interference", 14, 11, 17, sampling=1), ""),
])
def test_the_end_that_decides_is_told_where_the_interval_shown_is_clear_of_the_limit(bw, found, said):
    """Under 10 um it is barred: 11 to 17 um are clear of that, 9 um, two further out, is not."""
    check = evaluate(bw.leaf("fit.mean_interference", "below", "grip.least"), {"fit.mean_interference": found})
    assert check.outcome == "undecided"
    assert check_shown(check, {}).partition(" is not clear of 10.0 um")[2] == said


def test_margin_in_words(bw):
    check = evaluate(bw.leaf("fit.mean_interference", "between", 0.0, 10.0),
                     bw.facts(fit__mean_interference=(5, 4, 6)))
    assert wanted(check) == "between 0.0 and 10.0"
    assert margin_shown(check) == "+4 um, 4.0 spreads"
    assert margin_shown(evaluate(bw.yes("damage.crack"), {})) == ""
