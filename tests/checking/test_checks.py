"""The shipped rules have no flaw, every check has a page, and the checks agree with each other."""

import re
import time
from collections.abc import Callable
from pathlib import Path

import pytest

import recommender
from recommender.checking.check import Checked, check_folders
from recommender.checking.pages import check_ids, page_of
from recommender.checking.registry import CHECKS, MODULES

PACKAGE = Path(recommender.__file__).parent
NOT_CHECKS = {"__init__", "check", "house_pages", "load_pages", "looked", "pages", "pruning", "regions", "registry"}


@pytest.fixture(scope="module")
def shipped() -> Checked:
    return check_folders()


def test_the_shipped_rules_have_no_flaw_and_no_warning(shipped: Checked) -> None:
    assert [str(each) for each in shipped.flaws if each.level != "note"] == []
    assert [each.check for each in shipped.flaws] == ["rules.unasked-fact"]


def test_checking_the_shipped_rules_takes_less_than_a_second() -> None:
    spent = []
    for _ in range(3):
        start = time.process_time()
        check_folders()
        spent.append(time.process_time() - start)
    assert min(spent) < 1.0, spent


def test_the_small_book_is_sound(rules_checked: Callable[..., Checked]) -> None:
    assert [str(each) for each in rules_checked().flaws if each.level != "note"] == []


def test_every_module_of_a_check_is_registered() -> None:
    files = {path.stem for path in (PACKAGE / "checking").glob("*.py")} - NOT_CHECKS
    assert files == {module.__name__.rpartition(".")[2] for module in MODULES}
    assert {check.id for check in CHECKS} == {f"rules.{name.replace('_', '-')}" for name in files}


def test_every_check_made_while_loading_has_a_page() -> None:
    texts = [path.read_text("utf-8") for path in (PACKAGE / "rulebook").glob("*.py")]
    called = re.compile(r"(?:flaw|Wrong|_at)\(\s*(?:entry, leaf\.place, )?'([a-z-]+)'")
    named = {name for text in texts for name in called.findall(text.replace('"', "'"))}
    named |= {name for text in texts for name in re.findall(r'"rules\.([a-z-]+)",', text)}
    assert len(named) > 20
    assert [name for name in sorted(named) if page_of(f"rules.{name}") is None] == []


@pytest.mark.parametrize("check", check_ids())
def test_a_page_says_what_to_avoid_what_to_prefer_and_why(check: str) -> None:
    page = page_of(check) or ""
    if check == "rules.unasked-fact":
        assert "Nothing has to be done" in page
        return
    assert [part for part in ("Avoid:", "Prefer:", "Why:") if part not in page] == []
    assert max(map(len, page.splitlines())) <= 120


def test_a_page_is_found_without_its_family() -> None:
    assert page_of("never-holds") == page_of("rules.never-holds")
    assert page_of("yaml.scalar")
    assert page_of("rules.nonsense") is None


def test_a_folder_that_is_not_there(tmp_path: Path) -> None:
    found = check_folders(rules=tmp_path / "nowhere")
    assert [each.message for each in found.flaws] == ["there is no such folder"]
    assert found.book is None
