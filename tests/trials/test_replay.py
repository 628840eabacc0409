"""Kept records judged again: which still stand, and what changed."""

import json
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from recommender.advice import advise
from recommender.deciding.answer import to_json
from recommender.records.case_text import load_case_text
from recommender.records.record import Record, record_of
from recommender.records.store import keep, read_record, record_files
from recommender.rulebook.book import Rulebook
from recommender.rulebook.folders import shipped_folder
from recommender.rulebook.load import load
from recommender.trials.replay import replay

FITS, BEARINGS = "fit_classes/bearing_in_metal.yaml", "judgement/bearing.yaml"
GAPS = (
    ("value: 250\n", "value: 240\n"), ("grip.gaps_at: 245 N", "grip.gaps_at: 235 N"),
    ("grip.gaps_at: 255 N", "grip.gaps_at: 245 N"),
)  # fmt: skip
BAR = (
    ("value: 4\n", "value: 9\n"), ("fit.mean_interference: 3 um", "fit.mean_interference: 8 um"),
    ("fit.mean_interference: 5 um", "fit.mean_interference: 10 um"),
)  # fmt: skip


@pytest.fixture(scope="module")
def rules(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a copy of the shipped rules, so that book and edited book come from the same files."""
    return shutil.copytree(shipped_folder(), tmp_path_factory.mktemp("shipped") / "rules")


Edited = Callable[..., Rulebook]


@pytest.fixture
def edited(rules: Path, tmp_path: Path) -> Edited:
    """Return how to get the book with lines edited in one of its files."""

    def edit(file: str, *edits: tuple[str, str]) -> Rulebook:
        folder = shutil.copytree(rules, tmp_path / "rules")
        text = (folder / file).read_text(encoding="utf-8")
        for old, new in edits:
            assert old in text
            text = text.replace(old, new, 1)
        (folder / file).write_text(text, encoding="utf-8")
        return load(rules=folder)

    return edit


@pytest.fixture(scope="module")
def book(rules: Path) -> Rulebook:
    return load(rules=rules)


def recorded(text: str, book: Rulebook) -> Record:
    loaded = load_case_text(text, "bench.yaml")
    return record_of(loaded, advise(loaded, book), book)


def decided(text: str, book: Rulebook) -> dict[str, Any]:
    """Return what counts of an advice, gathered by a walk through its JSON that knows nothing of records."""
    advice = json.loads(to_json(advise(load_case_text(text, "bench.yaml"), book)))
    return dict(_counted(advice, ""))


def _counted(node: Any, path: str) -> Iterator[tuple[str, Any]]:
    if isinstance(node, dict):
        for key, each in node.items():
            here = f"{path}/{node.get('id', '')}{node.get('part', '')}/{key}"
            outcome = key == "outcome" and each != "fails" and node.get("node") in (None, "RuleRun")
            if outcome or (key in ("verdict", "make") and path.count("/") <= 4):
                yield here, each
            elif key == "facts":
                yield here, {fact: _number(found) for fact, found in each.items()}
            else:
                yield from _counted(each, here)
    elif isinstance(node, list):
        for count, each in enumerate(node):
            name = each.get("id") or each.get("rule") or each.get("part") if isinstance(each, dict) else None
            yield from _counted(each, f"{path}/{name or count}")


def _number(found: dict[str, Any]) -> Any:
    return "unknown" if "unknown" in found else [found.get(each) for each in ("value", "low", "high", "word")]


def test_a_record_stands_by_the_rules_it_was_made_by(direct_bearings: str, book: Rulebook) -> None:
    again = replay(recorded(direct_bearings, book), lambda _: book)
    assert again.stands
    assert again.difference is not None
    assert not again.difference.book
    assert again.difference.case == ()


def test_the_book_of_the_day_the_frame_was_received_is_asked_for(cracked: str, book: Rulebook) -> None:
    asked = []
    assert replay(recorded(cracked, book), lambda received: (asked.append(received), book)[1]).stands
    assert [each.isoformat() for each in asked] == ["2026-04-24"]


def test_a_case_that_is_refused_today_does_not_stand(cracked: str, book: Rulebook) -> None:
    record = recorded(cracked, book)
    spoilt = record.content.model_copy(update={"case_text": cracked.replace("sides:", "sidse:")})
    again = replay(record._replace(content=spoilt), lambda _: book)
    assert not again.stands
    assert again.difference is None
    assert any("sidse" in each.message for each in again.flaws)


def test_of_a_hundred_records_exactly_those_are_listed_whose_decision_changed(
    hundred: list[str], book: Rulebook, edited: Edited, tmp_path: Path
) -> None:
    stricter = edited(BEARINGS, *GAPS)
    texts = {}
    for text in hundred:
        record = recorded(text, book)
        keep(record, tmp_path / "kept")
        texts[record.id] = text
    files = record_files([tmp_path / "kept"])
    assert len(files) == 100
    replayed = [replay(read_record(path), lambda _: stricter) for path in files]
    listed = {each.record for each in replayed if not each.stands}
    assert listed == {name for name, text in texts.items() if decided(text, book) != decided(text, stricter)}
    assert 0 < len(listed) < 10
    for each in replayed:
        assert each.difference is not None
        assert [(limit.where, limit.before, limit.after) for limit in each.difference.book.limits] == [
            ("grip.gaps_early", "250 N", "240 N")
        ]


def test_a_stricter_limit_shows_in_verdict_outcomes_and_facts(
    direct_bearings: str, book: Rulebook, edited: Edited
) -> None:
    loose = direct_bearings.replace("side: drive, od: {value: 41.994 mm", "side: drive, od: {value: 41.984 mm")
    again = replay(recorded(loose, book), lambda _: edited(FITS, *BAR))
    assert not again.stands
    assert again.difference is not None
    part = "bearing_6806 (in hand, no. 1)"
    assert ("drive, part", part, "bearing_6806 (to be chosen)") in again.difference.verdicts
    outcomes = {each.where: (each.before, each.after) for each in again.difference.outcomes}
    assert outcomes[f"drive/press_as_is/{part}"] == ("cleared_with_cautions", "unsettled")
    assert outcomes[f"rule bearing-in-metal.too-loose on drive/press_as_is/{part}"] == ("fails", "undecided")
    assert "drive/ordinary.under_window" in [each.where for each in again.difference.facts]


def test_a_reworded_rule_changes_no_decision(direct_bearings: str, book: Rulebook, edited: Edited) -> None:
    reworded = edited(FITS, ("meaning: Smallest", "meaning: Least"))
    again = replay(recorded(direct_bearings, book), lambda _: reworded)
    assert again.stands
    assert again.difference is not None
    assert [each.where for each in again.difference.book.others] == ["limits bearing_in_metal.bar_low"]
