"""What is said to differ between two records of one frame."""

from collections.abc import Callable
from dataclasses import replace

from recommender.advice import advise
from recommender.records.case_text import load_case_text
from recommender.records.difference import Change, difference
from recommender.records.record import Content, Record, record_of
from recommender.rulebook.book import Rulebook

Recorded = Callable[..., Record]


def with_book(content: Content, book: Rulebook) -> Content:
    loaded = load_case_text(content.case_text, f"{content.case}.yaml")
    return record_of(loaded, advise(loaded, book), book).content


def test_nothing_differs_from_itself(long: Record) -> None:
    same = difference(long.content, long.content)
    assert same.stands
    assert not same.book
    assert (same.case, same.engine, same.verdicts, same.outcomes, same.facts) == ((), None, (), (), ())


def test_an_amended_case_shows_its_lines_and_what_follows(record: Recorded, long: Record, long_text: str) -> None:
    amended = record(long_text.replace("od: 46.032 mm", "od: 45.900 mm"))
    found = difference(long.content, amended.content)
    assert len(found.case) == 2
    assert found.case[0].startswith("-")
    assert "46.032 mm" in found.case[0]
    assert "45.900 mm" in found.case[1]
    assert not found.book
    assert not found.stands
    assert found.verdicts
    assert any(each.where.endswith("/fit.mean_interference") for each in found.facts)
    assert any(each.where.startswith("rule polymer-cup.too-loose on drive/press_as_is/") for each in found.outcomes)


def test_a_remark_in_the_case_changes_no_decision(record: Recorded, short: Record, short_text: str) -> None:
    found = difference(short.content, record(short_text + "# looked at again\n").content)
    assert found.case == ("+# looked at again",)
    assert found.stands


def test_a_moved_limit_is_named_with_its_values_and_not_as_a_rule(short: Record, book: Rulebook) -> None:
    name = "polymer_cup.bar_low"
    rule = book.rule("polymer-cup.too-loose")
    moved = replace(book, limits={**book.limits, name: replace(book.limits[name], value=3.0)}, fingerprint="other")
    found = difference(short.content, with_book(short.content, moved))
    assert found.book.limits == (Change(name, "0.0 um", "3.0 um"),)
    assert found.book.rules == ()
    assert found.book.others == ()
    other = replace(book, rules=tuple(
        replace(each, title="Another title") if each.id == rule.id else each for each in book.rules
    ))  # fmt: skip
    found = difference(short.content, with_book(short.content, other))
    assert found.book.rules == (Change("polymer-cup.too-loose", "as kept", "changed"),)
    assert found.book.limits == ()
    assert found.stands


def test_rules_that_came_and_went_are_named(short: Record, book: Rulebook) -> None:
    gone = book.rule("polymer-cup.too-loose")
    fresh = replace(gone, id="house.too-loose", layer="house")
    rules = tuple(each for each in book.rules if each is not gone)
    found = difference(short.content, with_book(short.content, replace(book, rules=(*rules, fresh))))
    assert found.book.rules == (
        Change("house.too-loose", "none", "new"), Change("polymer-cup.too-loose", "as kept", "gone"),
    )  # fmt: skip


def test_other_entries_are_named_by_section(short: Record, book: Rulebook) -> None:
    remedies = (book.remedies[1], book.remedies[0], *book.remedies[2:])
    found = difference(short.content, with_book(short.content, replace(book, remedies=remedies, standing=("x",))))
    assert [each.where for each in found.book.others] == ["remedies (order)", "standing (all)"]


def test_another_engine_is_named(short: Record) -> None:
    advice = {**short.content.advice, "engine": "borewright 9.9.9"}
    found = difference(short.content, short.content.model_copy(update={"advice": advice}))
    assert found.engine == Change("engine", "borewright 0.1.0", "borewright 9.9.9")
    assert found.stands


def test_a_fact_differs_by_its_number_and_not_by_its_wording(short: Record) -> None:
    facts = short.content.advice["frame"]["facts"]
    name = next(key for key, each in facts.items() if "unknown" in each)
    reworded = {**facts, name: {"shown": "unknown (nobody asked)", "unknown": "nobody asked"}}
    known = {**facts, name: {"shown": "yes", "word": True}}

    def against(new: dict[str, object]) -> tuple[Change, ...]:
        frame = {**short.content.advice["frame"], "facts": new}
        advice = {**short.content.advice, "frame": frame}
        return difference(short.content, short.content.model_copy(update={"advice": advice})).facts

    assert against(reworded) == ()
    assert against(known) == (Change(f"frame/{name}", facts[name]["shown"], "yes"),)
