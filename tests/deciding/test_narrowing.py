"""How closely a number must be known to tell on which side of its limit it lies, and what brings it there."""

import pytest

from recommender.deciding.narrowing import narrow, straddles
from recommender.facts.catalogue import CATALOGUE
from recommender.facts.value import number
from recommender.logic.evaluate import Check, evaluate

READ, MEASURE = "ead each row of the bore more often", "easure the part more finely"


def interference(low: float, middle: float, high: float, *inputs: str, beyond: float = 0.0, sampling: float = 0.0):
    return number("fit.mean_interference", middle, low, high, inputs=inputs, beyond=beyond, sampling=sampling)


def check(bw, found) -> Check:
    return evaluate(bw.leaf("fit.mean_interference", "below", "grip.least"), {"fit.mean_interference": found})


def told(bw, found, **others) -> str:
    known = {"fit.mean_interference": found} | others
    return narrow(check(bw, found), known, {})


def test_only_a_number_that_reaches_past_its_limit_on_both_sides_can_be_narrowed(bw):
    assert straddles(check(bw, interference(8, 11, 14)))
    assert not straddles(check(bw, interference(11, 12, 14)))
    assert not straddles(check(bw, bw.value("fit.mean_interference", None)))
    assert not straddles(check(bw, interference(10, 10, 10, beyond=0.5)))
    assert not straddles(evaluate(bw.yes("damage.crack"), {}))


def test_the_spread_that_would_do_is_the_distance_to_the_limit(bw):
    """12 +-4 um, limit 10: at +-2 um the interval would end on the limit. Half as much where 4 um more decide."""
    assert "is known to +-4.0 um" in told(bw, interference(8, 12, 16))
    assert "a spread under +-2.0 um would settle it" in told(bw, interference(8, 12, 16))
    assert "a spread under +-1.0 um would settle it" in told(bw, interference(8, 12, 16, beyond=4.0))
    assert "a spread under +-0.5 um would settle it" in told(bw, interference(8, 12, 16, sampling=4.0))


@pytest.mark.parametrize(("middle", "in_reach"), [(10.3, False), (9.7, False), (10.5, True), (9.5, True)])
def test_under_a_tenth_of_the_spread_no_finer_reading_is_asked_for(bw, middle, in_reach):
    """+-4 um: a tenth of it is 0.4 um."""
    text = told(bw, interference(middle - 4, middle, middle + 4, "part.od"))
    assert (MEASURE in text) is in_reach
    assert ("another part may lie clear of it" in text) is not in_reach


def test_what_to_do_is_named_after_what_the_number_was_made_from(bw):
    """By way of other facts as well: +-3 um of the bore, +-5 um of the part."""
    bore = number("bore.mean_diameter", 45.972, 45.969, 45.975)
    part = number("part.od", 45.984, 45.979, 45.989, inputs=("case:parts.0.od",))
    both = told(bw, interference(8, 12, 16, "bore.mean_diameter", "part.od"),
                **{"bore.mean_diameter": bore, "part.od": part})  # fmt: skip
    assert both.endswith("before and after (now +-3.0 um); or measure the part more finely (now +-5.0 um)")
    of_part = told(bw, interference(8, 12, 16, "part.od"), **{"part.od": part})
    assert READ not in of_part
    assert of_part.endswith("Measure the part more finely (now +-5.0 um)")
    badly = number("part.od", 45.9, 45.8, 46.0)
    assert told(bw, interference(8, 12, 16, "part.od"), **{"part.od": badly}).endswith("(now +-100.0 um)")
    of_bore = told(bw, interference(8, 12, 16, "fit.class"),
                   **{"bore.widest_diameter": bore, "fit.class": bw.value("fit.class", "polymer_cup")._replace(
                       inputs=("bore.widest_diameter",))})  # fmt: skip
    assert MEASURE not in of_bore
    assert of_bore.endswith("before and after (now +-3.0 um)")


def test_how_closely_a_diameter_is_known_is_told_only_of_one_that_counts_and_is_known(bw):
    part = number("part.od", 45.984, 45.979, 45.989)
    from_case = told(bw, interference(8, 12, 16, "case:parts.0.od"), **{"part.od": part})
    assert from_case.endswith("Measure the part more finely")
    unknown = told(bw, interference(8, 12, 16, "part.od"), **{"part.od": bw.value("part.od", None)})
    assert unknown.endswith("Measure the part more finely")
    elsewhere = told(bw, interference(8, 12, 16, "bore.taper"))
    assert elsewhere.endswith("before and after")


def test_a_number_made_from_neither_bore_nor_part_is_settled_as_the_catalogue_says(bw):
    settle = CATALOGUE["fit.mean_interference"].settle
    assert told(bw, interference(8, 12, 16, "limit:grip.least")).endswith(f". {settle[:1].upper()}{settle[1:]}")
