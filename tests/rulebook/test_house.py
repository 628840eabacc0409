"""Acts of a house folder on an invented book."""

from collections.abc import Callable
from datetime import date

import pytest

from recommender.ground.flaw import Flaw, Flawed
from recommender.reading.yaml_reader import read_text
from recommender.rulebook.assemble import book_of
from recommender.rulebook.book import Rulebook
from recommender.rulebook.gather import gather
from recommender.rulebook.house import expired, with_house

SEALED = ("crack.seen",)
SIGNED = "reason: Two returns, by: lead, dated: 2026-03-01, review_by: 2027-03-01"
BEFORE, AFTER = date(2026, 12, 1), date(2027, 6, 1)
TIGHTER = f"house:\n  - {{change: gap.least, to: 8 um, was: 5 um, {SIGNED}}}\n"
LOOSER = f"house:\n  - {{change: gap.most, to: 0.09 mm, was: 80 um, {SIGNED}}}\n"
ADDED = f"""\
limits:
  house.oval:
    meaning: Out-of-round this shop bears
    unit: um
    safe_side: lower
    shop_may: move
    value: 15
    source: {{kind: shop}}
    added: {{{SIGNED}}}
rules:
  - id: house.rather-oval
    title: More oval than this shop bears
    about: {{remedies: [press_as_is]}}
    holds_if: {{fact: bore.ovality, above: house.oval}}
    finding: {{stance: rules_out}}
    because: "{{bore.ovality}} is over {{house.oval}}."
    source: {{kind: shop}}
    examples:
      - {{name: oval, facts: {{bore.ovality: 16 um}}, expect: holds}}
      - {{name: round, facts: {{bore.ovality: 14 um}}, expect: fails}}
    added: {{{SIGNED}}}
"""
REPLACED = f"""\
house:
  - replace: stress.high
    {SIGNED.replace(", ", "{NEXT}")}
    rule:
      id: stress.high
      title: Ring stress, seen by this shop
      about: {{remedies: [press_as_is]}}
      holds_if: {{fact: bearing.ring_stress, above: 100 MPa}}
      finding: {{stance: rules_out}}
      because: "The ring bears {{bearing.ring_stress}}."
      source: {{kind: shop}}
      examples:
        - {{name: high, facts: {{bearing.ring_stress: 101 MPa}}, expect: holds}}
        - {{name: low, facts: {{bearing.ring_stress: 99 MPa}}, expect: fails}}
""".replace("{NEXT}", "\n    ")


@pytest.fixture
def overlay(book_text: str) -> Callable[..., Rulebook]:
    def lay(*texts: str, on: date | None = None) -> Rulebook:
        gathered = gather([read_text(book_text, "rules/0.yaml")])
        documents = [read_text(text, f"house/{number}.yaml") for number, text in enumerate(texts)]
        shipped = book_of(gathered, SEALED)
        before = shipped.fingerprint
        try:
            return with_house(shipped, gathered, documents, on, SEALED)
        finally:
            assert book_of(gathered, SEALED).fingerprint == before

    return lay


@pytest.fixture
def refused(overlay: Callable[..., Rulebook]) -> Callable[..., tuple[Flaw, ...]]:
    def lay(*texts: str, on: date | None = None) -> tuple[Flaw, ...]:
        with pytest.raises(Flawed) as caught:
            overlay(*texts, on=on)
        return caught.value.flaws

    return lay


def test_a_limit_made_stricter(overlay: Callable[..., Rulebook]) -> None:
    book = overlay(TIGHTER, on=BEFORE)
    limit = book.limits["gap.least"]
    assert (limit.value, limit.layer, str(limit.source)) == (8, "house", "this shop: Two returns")
    assert str(limit.place) == "house/0.yaml:2:5"
    leaf = book.rule("press.loose").condition.parts[1]  # type: ignore[union-attr]
    assert leaf.wanted[0].value == 8  # type: ignore[union-attr]
    change = book.house_changes[0]
    assert (change.kind, change.before, change.after, change.looser) == ("change", "5.0 um", "8.0 um", False)
    assert (change.reason, change.by, change.review_by) == ("Two returns", "lead", date(2027, 3, 1))


def test_a_limit_moved_to_the_looser_side_in_another_unit(overlay: Callable[..., Rulebook]) -> None:
    book = overlay(LOOSER, on=BEFORE)
    assert book.limits["gap.most"].value == 90
    assert book.house_changes[0].looser


def test_a_looser_act_is_void_once_its_review_is_overdue_and_a_stricter_one_is_not(
    overlay: Callable[..., Rulebook],
) -> None:
    book = overlay(LOOSER, TIGHTER, on=AFTER)
    assert [change.id for change in book.house_changes] == ["gap.least"]
    assert [change.id for change in book.house_void] == ["gap.most"]
    assert (book.limits["gap.most"].value, book.limits["gap.least"].value) == (80, 8)


def test_the_day_of_the_review_still_counts(overlay: Callable[..., Rulebook]) -> None:
    change = overlay(LOOSER).house_changes[0]
    assert not expired(change, date(2027, 3, 1))
    assert expired(change, date(2027, 3, 2))
    assert not expired(change, None)


def test_a_withdrawn_rule(overlay: Callable[..., Rulebook]) -> None:
    act = f"house:\n  - {{withdraw: oval.high, {SIGNED}}}\n"
    assert "oval.high" not in {rule.id for rule in overlay(act, on=BEFORE).rules}
    assert "oval.high" in {rule.id for rule in overlay(act, on=AFTER).rules}


def test_a_replaced_rule(overlay: Callable[..., Rulebook]) -> None:
    rule = overlay(REPLACED, on=BEFORE).rule("stress.high")
    assert (rule.title, rule.layer, rule.if_undecided) == ("Ring stress, seen by this shop", "house", None)
    assert str(rule.place) == "house/0.yaml:7:5"


def test_added_rules_and_limits(overlay: Callable[..., Rulebook]) -> None:
    book = overlay(ADDED, on=AFTER)
    assert book.rule("house.rather-oval").layer == "house"
    assert sorted(change.id for change in book.house_changes) == ["house.oval", "house.rather-oval"]


def test_an_added_reason_to_use_a_remedy_is_void_once_its_review_is_overdue(overlay: Callable[..., Rulebook]) -> None:
    supporting = ADDED.replace("rules_out", "supports")
    assert [change.id for change in overlay(supporting, on=AFTER).house_void] == ["house.rather-oval"]


def test_house_files_change_the_fingerprint(overlay: Callable[..., Rulebook]) -> None:
    prints = {overlay(text).fingerprint for text in (TIGHTER, LOOSER, ADDED, REPLACED)}
    assert len(prints) == 4


@pytest.mark.parametrize(
    ("act", "check", "place", "message"),
    [
        ("change: gap.leest, to: 8 um, was: 5 um", "house-unknown", "2:14", "no limit `gap.leest`"),
        ("change: gap.least, to: 8 um, was: 6 um", "house-stale", "2:40", "shipped value of gap.least is 5.0 um"),
        ("change: gap.least, to: 5 um, was: 5 um", "house-same", "2:29", "leaves gap.least as it is"),
        ("change: gap.least, to: 4 um, was: 5 um", "house-looser", "2:29", "only make gap.least stricter"),
        ("change: gap.least, to: 8 MPa, was: 5 um", "unit", "2:29", "gap.least is in um"),
        ("change: gap.least, to: 8, was: 5 um", "unit", "2:29", "gap.least is in um"),
        ("change: turns.most, to: 2 um, was: 3", "unit", "2:30", "turns.most is a plain number"),
        ("change: oval.most, to: 0.02 mm, was: 0.025 mm", "house-forbidden", "2:14", "may not be changed"),
        ("withdraw: oval.hihg", "house-unknown", "2:16", "no rule `oval.hihg`"),
        ("withdraw: crack.seen", "house-sealed", "2:16", "crack.seen is sealed"),
        ("withdraw: press.loose, why: so", "unknown-key", "2:29", "`why`"),
        ("remove: press.loose", "wrong-value", "2:5", "an act on the shipped rules"),
    ],
)
def test_acts_that_are_refused(
    refused: Callable[..., tuple[Flaw, ...]], act: str, check: str, place: str, message: str
) -> None:
    flaws = refused(f"house:\n  - {{{act}, {SIGNED}}}\n")
    assert [each.check.split(".")[1] for each in flaws] == [check]
    assert str(flaws[0].place) == f"house/0.yaml:{place}"
    assert message in flaws[0].message


def test_a_limit_a_sealed_rule_rests_on_is_never_made_looser(book_text: str) -> None:
    gathered = gather([read_text(book_text, "rules/0.yaml")])
    sealed = ("worn.refits",)
    act = read_text(f"house:\n  - {{change: turns.most, to: 4, was: 3, {SIGNED}}}\n", "house/0.yaml")
    with pytest.raises(Flawed) as caught:
        with_house(book_of(gathered, sealed), gathered, [act], None, sealed)
    assert [each.check for each in caught.value.flaws] == ["rules.house-looser"]
    assert "holds up the sealed rule worn.refits" in caught.value.flaws[0].message


@pytest.mark.parametrize(
    "missing", ["reason: Two returns, ", "by: lead, ", "dated: 2026-03-01, ", ", review_by: 2027-03-01"]
)
def test_every_act_is_signed_and_dated(refused: Callable[..., tuple[Flaw, ...]], missing: str) -> None:
    assert refused(TIGHTER.replace(missing, ""))[0].check == "file.missing-key"
    assert refused(ADDED.replace(missing, ""))[0].check == "file.missing-key"


def test_a_change_without_the_shipped_value(refused: Callable[..., tuple[Flaw, ...]]) -> None:
    assert "`was`" in refused(TIGHTER.replace("was: 5 um, ", ""))[0].message


@pytest.mark.parametrize("text", [TIGHTER, ADDED, REPLACED])
def test_a_review_lies_after_the_change(refused: Callable[..., tuple[Flaw, ...]], text: str) -> None:
    flaws = refused(text.replace("review_by: 2027-03-01", "review_by: 2026-03-01"))
    assert {each.check for each in flaws} == {"rules.house-dates"}


def test_two_acts_on_one_id_name_both_places(refused: Callable[..., tuple[Flaw, ...]]) -> None:
    flaws = refused(TIGHTER, TIGHTER.replace("8 um", "9 um"))
    assert [(each.check, str(each.place)) for each in flaws] == [("rules.house-twice", "house/1.yaml:2:6")]
    assert "house/0.yaml:2:5" in flaws[0].advice


@pytest.mark.parametrize(
    ("old", "new", "check"),
    [
        ("      id: stress.high", "      id: stress.higher", "house-replace"),
        ("about: {remedies: [press_as_is]}", "about: {remedies: [ream]}", "house-replace"),
        ("about: {remedies: [press_as_is]}", "about: frame", "house-replace"),
        ("stance: rules_out}", "stance: rules_out, if_undecided: caution}", "excuse"),
        ("101 MPa", "99 MPa", "example"),
        ("above: 100 MPa", "above: 100", "unit-missing"),
        ("  - replace: stress.high", "  - replace: crack.seen", "house-sealed"),
    ],
)
def test_a_replacement_that_is_refused(
    refused: Callable[..., tuple[Flaw, ...]], old: str, new: str, check: str
) -> None:
    assert old in REPLACED
    flaws = refused(REPLACED.replace(old, new))
    assert f"rules.{check}" in {each.check for each in flaws}
    assert all(each.place.file == "house/0.yaml" for each in flaws)


def test_additions_carry_the_name_of_the_house(refused: Callable[..., tuple[Flaw, ...]]) -> None:
    flaws = refused(ADDED.replace("house.rather-oval", "rather-oval"))
    assert [(each.check, str(each.place)) for each in flaws] == [("rules.house-id", "house/0.yaml:11:5")]
    assert "`house.rather-oval`" in flaws[0].advice


def test_a_house_may_not_leave_a_remedy_without_a_voice_against_it(refused: Callable[..., tuple[Flaw, ...]]) -> None:
    flaws = refused(f"house:\n  - {{withdraw: press.loose, {SIGNED}}}\n")
    assert [each.check for each in flaws] == ["rules.silent-remedy"]


def test_a_house_part_belongs_to_the_standards_it_names(overlay: Callable[..., Rulebook], book_text: str) -> None:
    stock = """\
standards:
  pf30:
    title: Wide shell
    kind: press_cup
    bore: {nominal: 46 mm, lower: null, upper: null}
    widths: [68 mm]
    parts: []
    source: {kind: memory}
materials:
  aluminium:
    title: Aluminium
    kind: metal
    modulus: {value: 69 GPa, low: 68 GPa, high: 72 GPa}
    poisson: "0.33"
    expansion: {value: 23.6 ppm/K, low: 23 ppm/K, high: 24 ppm/K}
    source: {kind: memory}
bearings:
  "6806":
    title: Bearing
    bore: 30 mm
    od: 42 mm
    width: 7 mm
    od_band: {lower: 41.989 mm, upper: 42.000 mm}
    clearance: {CN: {low: 5 um, high: 20 um}}
    sold: [CN]
    source: {kind: memory}
"""
    part = f"""\
parts:
  house.cup:
    title: Cup from this shop's lathe
    kind: cup
    material: aluminium
    od: {{nominal: 46 mm, lower: 46.05 mm, upper: 46.06 mm}}
    contact_length: 10 mm
    seat: 42 mm
    bearing: "6806"
    turnable: true
    standards: [pf30]
    source: {{kind: shop}}
    added: {{{SIGNED}}}
"""
    gathered = gather([read_text(book_text, "rules/0.yaml"), read_text(stock, "rules/1.yaml")])
    book = with_house(book_of(gathered), gathered, [read_text(part, "house/0.yaml")], None, ())
    assert book.standards["pf30"].parts == ("house.cup",)
    assert book.parts["house.cup"].od == (46.05, 46.06)


def test_sections_a_house_file_does_not_have(refused: Callable[..., tuple[Flaw, ...]]) -> None:
    flaws = refused("remedies: {}\n")
    assert [each.check for each in flaws] == ["file.unknown-key"]
