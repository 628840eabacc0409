from collections.abc import Callable
from itertools import permutations
from pathlib import Path

import pytest

from recommender.ground.flaw import Flawed
from recommender.logic.conditions import Group, Leaf
from recommender.rulebook.book import Rulebook, Subject
from recommender.rulebook.folders import read_folder

Build = Callable[..., Rulebook]


def test_rules_are_sorted_by_id_and_remedies_stay_in_order(build: Build, book_text: str) -> None:
    book = build(book_text)
    ids = [rule.id for rule in book.rules]
    assert ids == sorted(ids)
    assert [remedy.id for remedy in book.remedies] == ["press_as_is", "ream"]


def test_a_rule_as_the_book_keeps_it(build: Build, book_text: str) -> None:
    rule = build(book_text).rule("press.loose")
    assert rule.about == Subject("remedies", ("press_as_is", "ream"))
    assert (rule.stance, rule.cautions, rule.deferrals, rule.do) == ("rules_out", ("look-again",), ("specialist",), ())
    assert (rule.limits, rule.facts) == (("gap.least",), ("part.material", "fit.mean_interference"))
    assert (rule.layer, rule.sealed, rule.if_undecided) == ("shipped", False, None)
    assert isinstance(rule.condition, Group)
    words, number = rule.condition.parts
    assert isinstance(words, Leaf)
    assert isinstance(number, Leaf)
    assert [operand.value for operand in words.wanted] == ["polymer", "aluminium"]
    assert (number.wanted[0].value, number.wanted[0].limit, number.wanted[0].shown) == (5.0, "gap.least", "5.0 um")
    assert str(number.place) == "rules/0.yaml:62:11"
    assert str(rule.place) == "rules/0.yaml:56:5"


def test_a_limit_of_another_unit_of_the_kind_is_converted(build: Build, book_text: str) -> None:
    condition = build(book_text).rule("oval.high").condition
    assert isinstance(condition, Group)
    leaf = condition.parts[0]
    assert isinstance(leaf, Leaf)
    assert (leaf.wanted[0].value, leaf.wanted[0].shown) == (25.0, "0.025 mm")


def test_words_have_a_text_and_may_be_given_one(build: Build, book_text: str, change: Callable[..., str]) -> None:
    book = build(change("looks: [eye]", 'looks: {eye: with the naked eye, lamp_light: "by lamp"}', book_text))
    assert book.words["looks"] == {"eye": "with the naked eye", "lamp_light": "by lamp"}
    assert build(change("[bore]", "[port_edge]", book_text)).words["places"] == {"port_edge": "port edge"}


def test_sections_may_be_spread_over_files(build: Build, book_text: str) -> None:
    head, tail = book_text.split("rules:\n")
    limits, rest = head.split("remedies:\n")
    files = (limits, "remedies:\n" + rest, "rules:\n" + tail)
    assert {build(*order).fingerprint for order in permutations(files)} == {build(book_text).fingerprint}


def test_comments_and_layout_do_not_change_the_fingerprint(build: Build, book_text: str) -> None:
    assert build("# a comment\n" + book_text).fingerprint == build(book_text).fingerprint


def test_everything_effective_changes_the_fingerprint(
    build: Build, book_text: str, change: Callable[..., str]
) -> None:
    edits = [
        ("value: 5\n", "value: 5.5\n"), ("Look again after a week", "Look again"), ("press.loose", "press.slack"),
        ("[polymer, aluminium]", "[aluminium, polymer]"), ("title: Ream,", "title: Reaming,"), ("a handbook", "a book"),
        ("shop_may: move", "shop_may: tighten"), ("name: loose", "name: slack"), ("[crack, scratch]", "[crack]"),
    ]  # fmt: skip
    seen = {build(change(old, new, book_text)).fingerprint for old, new in edits}
    assert len(seen) == len(edits)
    assert build(book_text).fingerprint not in seen


def test_sealed_is_what_code_says_and_not_the_label(build: Build, book_text: str) -> None:
    assert not build(book_text).rule("crack.seen").sealed
    assert build(book_text, sealed=("press.loose",)).rule("press.loose").sealed


def test_a_file_that_would_not_be_read_is_not_passed_over(rules_folder: Callable[..., Path]) -> None:
    folder = rules_folder(one="limits: {}\n")
    (folder / "two.yml").write_text("limits: {}\n")
    with pytest.raises(Flawed) as caught:
        read_folder(folder)
    assert [str(each.place) for each in caught.value.flaws] == ["rules/two.yml:1:1"]
