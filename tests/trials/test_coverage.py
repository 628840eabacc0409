"""Every comparison of the shipped rules is shown to hold, to fail and close to its limit; what is missing is told."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from recommender.reading.shipped import shipped_cases
from recommender.rulebook.book import Rule, Rulebook
from recommender.rulebook.load import load
from recommender.trials.case_facts import derived_cases
from recommender.trials.coverage import coverage
from recommender.trials.grid_coverage import grid_coverage
from recommender.trials.run_cases import case_files


@pytest.fixture(scope="module")
def shipped() -> Rulebook:
    return load()


def without(rule: Rule, wanted: Callable[[Any], bool], book: Rulebook) -> Rulebook:
    """The book with only those examples of a rule."""
    fewer = replace(rule, examples=tuple(each for each in rule.examples if wanted(each)))
    return replace(book, rules=tuple(fewer if each.id == rule.id else each for each in book.rules))


def missing(book: Rulebook, rule: str) -> list[tuple[str, str, str]]:
    return [(cover.leaf.fact.id, each.seen, each.value) for cover in coverage(book) if cover.rule == rule
            for each in cover.missing]  # fmt: skip


def test_nothing_is_missing_in_the_shipped_rules(shipped: Rulebook) -> None:
    assert [(each.rule, each.missing) for each in coverage(shipped) if each.missing] == []


def test_every_comparison_is_listed_once(shipped: Rulebook) -> None:
    covers = coverage(shipped)
    assert len(covers) > 150
    assert len({(each.rule, each.leaf.place) for each in covers}) == len(covers)


def test_an_outcome_that_no_example_shows_is_missed(shipped: Rulebook) -> None:
    rule = shipped.rule("polymer-cup.too-loose")
    book = without(rule, lambda each: each.name == "just held", shipped)
    assert ("fit.mean_interference", "holds", "-2.0 um") in missing(book, rule.id)
    book = without(rule, lambda each: each.expect == "holds", shipped)
    assert ("fit.mean_interference", "fails", "2.0 um") in missing(book, rule.id)
    others = [value for fact, seen, value in missing(book, rule.id) if (fact, seen) == ("fit.class", "fails")]
    assert others
    assert set(others) <= set(shipped.fit_classes) - {"polymer_cup"}


def test_a_limit_nobody_came_close_to_is_missed(shipped: Rulebook) -> None:
    rule = shipped.rule("polymer-cup.too-loose")
    far = without(rule, lambda each: each.name == "another pair", shipped)
    assert ("fit.mean_interference", "close", "-2.0 um") in missing(far, rule.id)


def test_cases_cover_too(shipped: Rulebook) -> None:
    rule = shipped.rule("polymer-cup.too-loose")
    book = without(rule, lambda each: False, shipped)
    path = next(path for path in case_files(shipped_cases()) if path.stem == "lane-2041")
    found = {(cover.leaf.fact.id): cover for cover in coverage(book, derived_cases([path], lambda day: book))
             if cover.rule == rule.id}  # fmt: skip
    assert found["fit.class"].counts["holds"] > 0
    assert found["fit.mean_interference"].counts["fails"] > 0


def test_every_row_of_the_shipped_grids_is_covered(shipped: Rulebook) -> None:
    rows = grid_coverage(shipped)
    assert len(rows) == sum(len(grid.table.rows) for grid in shipped.grids.values())
    assert [(each.grid, each.missing) for each in rows if each.missing] == []


def test_a_row_without_example_is_told_with_what_would_show_it(shipped: Rulebook) -> None:
    grid = shipped.grids["compound.cures"]
    left = tuple(each for each in grid.examples if each.name != "gap too wide")
    book = replace(shipped, grids={grid.id: replace(grid, examples=left)})
    found = {each.shown: each.missing for each in grid_coverage(book) if each.missing}
    shown = "part.material aluminium or steel, compound.gap from 100.0 um: not at all"
    assert found == {shown: (f"never answers alone; would be shown by {shown}",)}
    far = tuple(each for each in left if each.expect != "alone")
    moved = replace(shipped, grids={grid.id: replace(grid, examples=far)})
    told = [text for each in grid_coverage(moved) for text in each.missing]
    assert "compound.gap is never close to 100.0 um; would be shown by 99.0 um" in told
