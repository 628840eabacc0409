"""Ways of weakening a sealed rule of an invented book, each of which stops the loading."""

from collections.abc import Callable, Mapping

import pytest

from recommender.ground.flaw import Flaw
from recommender.ground.place import whole_file
from recommender.reading.yaml_reader import read_text
from recommender.rulebook.assemble import book_of
from recommender.rulebook.gather import gather
from recommender.rulebook.sealing import seal_flaws, seals

Change = Callable[..., str]
SEALED = ("crack.seen", "oval.high", "press.loose")


def released(text: str) -> Mapping[str, str]:
    return seals(book_of(gather([read_text(text, "rules/0.yaml")]), SEALED), SEALED)


def seal_flaws_in(text: str, sealed: Mapping[str, str]) -> list[Flaw]:
    gathered = gather([read_text(text, "rules/0.yaml")])
    return list(seal_flaws(book_of(gathered, SEALED), gathered, SEALED, sealed, whole_file("rules")))


CRACK = "{fact: damage.crack, equals: true}\n"
WEAKER = {
    "condition asks for more": (CRACK, f"{{every: [{CRACK[:-1]}, {{fact: damage.crack, known: true}}]}}\n"),
    "stance milder": ("{stance: stops_work}", "{stance: advises_against}"),
    "limit moved": ("value: 0.025", "value: 0.0251"),
    "limit in another unit": ("unit: mm\n    safe_side: lower", "unit: um\n    safe_side: lower"),
    "safe side turned": ("safe_side: lower\n    shop_may: nothing", "safe_side: higher\n    shop_may: nothing"),
    "comparison moved": ("below: gap.least", "at_most: gap.least"),
    "number instead of the limit": ("below: gap.least", "below: 5 um"),
    "a word less": ("one_of: [polymer, aluminium]", "one_of: [polymer]"),
    "a remedy less": (
        "Too loose\n    about: {remedies: [press_as_is, ream]}", "Too loose\n    about: {remedies: [ream]}",
    ),
    "remedy flag": ("title: Ream, reversible: false", "title: Ream, reversible: true"),
    "consent flag": ("makes: cut, consent: true", "makes: cut, consent: false"),
    "sign list": ("signs: [crack, scratch]", "signs: [scratch, crack, hairline]"),
    "place list": ("places: [bore]", "places: [lip]"),
    "ways of looking": ("looks: [eye]", "looks: [eye, hearsay]"),
    "list of cracks": ("cracks: [crack]", "cracks: [scratch]"),
}  # fmt: skip


@pytest.mark.parametrize("weakening", WEAKER)
def test_a_sealed_rule_that_was_weakened_is_named(book_text: str, change: Change, weakening: str) -> None:
    old, new = WEAKER[weakening]
    text = change(old, new, book_text)
    if weakening in ("limit in another unit", "comparison moved", "number instead of the limit", "a word less",
                     "a remedy less", "stance milder"):  # fmt: skip
        text = consistent(text, weakening, change)
    flaws = seal_flaws_in(text, released(book_text))
    assert flaws
    assert {each.check for each in flaws} == {"rules.seal-changed"}
    assert all("Restore its condition, stance and subject" in each.advice for each in flaws)


def consistent(text: str, weakening: str, change: Change) -> str:
    """Return the weakened book with everything else brought in line, so that only the seal can object."""
    if weakening == "limit in another unit":
        return change("bore.ovality: 26 um", "bore.ovality: 27 um", change("value: 0.025", "value: 25", text))
    if weakening == "number instead of the limit":
        return change(" is under {gap.least}.", " is too little.", text)
    if weakening == "a remedy less":
        return change("Ring stress\n    about: {remedies: [press_as_is]}",
                      "Ring stress\n    about: {remedies: [press_as_is, ream]}", text)  # fmt: skip
    return text


def test_the_flaw_says_where_and_what_to_restore(book_text: str, change: Change) -> None:
    text = change("value: 0.025", "value: 0.026", change("26 um", "27 um", book_text))
    flaws = seal_flaws_in(text, released(book_text))
    assert [str(each.place) for each in flaws] == ["rules/0.yaml:95:5"]
    assert "oval.high" in flaws[0].message
    assert "the limit oval.most" in flaws[0].advice


def test_a_sealed_rule_that_was_taken_out_is_named(book_text: str, change: Change) -> None:
    text = change("id: crack.seen", "id: crack.sen", book_text)
    flaws = seal_flaws_in(text, released(book_text))
    assert [(each.check, str(each.place)) for each in flaws] == [("rules.seal-missing", "rules:1:1")]
    assert "crack.seen" in flaws[0].message
    assert "`crack.sen`" in flaws[0].advice


def test_a_rule_without_a_fingerprint_is_a_flaw(book_text: str) -> None:
    assert len(seal_flaws_in(book_text, {})) == len(SEALED)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("# none", ""),
        ("A crack was seen.", "A crack was seen under light."),
        ("    sealed: true\n", ""),
        ("meaning: Greatest out-of-round", "meaning: Most out-of-round"),
        ("title: Crack", "title: Crack seen"),
        ("value: 80", "value: 70"),
        ("name: seen", "name: seen with a lamp"),
    ],
)
def test_what_no_decision_rests_on_is_not_sealed(book_text: str, change: Change, old: str, new: str) -> None:
    text = "# none\n" + book_text
    assert seal_flaws_in(change(old, new, text), released(text)) == []


def test_the_order_of_files_rules_and_remedies_named_is_not_sealed(book_text: str, change: Change) -> None:
    text = change("Too loose\n    about: {remedies: [press_as_is, ream]}",
                  "Too loose\n    about: {remedies: [ream, press_as_is]}", book_text)  # fmt: skip
    assert seal_flaws_in(text, released(book_text)) == []


def test_instruments_that_count_for_more_break_the_seal_of_rules_on_evidence(book_text: str) -> None:
    gauge = """\
instruments:
  calliper:
    title: Calliper
    sees: diameter_only
    usable: {low: 10 mm, high: 150 mm}
    reach: 15 mm
    guide: null
    feel: much
    error_limit: 40 um
    finest: 20 um
    repeatability: 20 um
    resolution: 10 um
    decides_fit: false
    source: {kind: memory}
"""
    old, new = "{fact: damage.crack, equals: true}", "{fact: evidence.decides_fit, equals: false}"
    text = book_text.replace(old, new).replace("about: frame", "about: side")
    text = text.replace("{damage.crack: true}", "{evidence.decides_fit: false}")
    text = text.replace("{damage.crack: false}", "{evidence.decides_fit: true}") + gauge
    assert seal_flaws_in(text, released(text)) == []
    weaker = text.replace("decides_fit: false\n", "decides_fit: true\n")
    assert [each.check for each in seal_flaws_in(weaker, released(text))] == ["rules.seal-changed"]


def test_limits_that_a_fact_rests_on_are_sealed_with_it(book_text: str) -> None:
    limit = """\
  evidence.contradiction:
    meaning: Least probability
    unit: "1"
    safe_side: higher
    shop_may: tighten
    value: 0.001
    source: {kind: memory}
"""
    text = book_text.replace("limits:\n", "limits:\n" + limit)
    text = text.replace("{fact: damage.crack, equals: true}", "{fact: evidence.gauges_contradict, equals: true}")
    text = text.replace("about: frame", "about: side").replace("damage.crack:", "evidence.gauges_contradict:")
    weaker = text.replace("value: 0.001", "value: 0.0001")
    assert [each.check for each in seal_flaws_in(weaker, released(text))] == ["rules.seal-changed"]
