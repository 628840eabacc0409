"""A book kept between runs: the same book, checked the same, and never in the way."""

import hashlib
import json
import os
import shutil
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest

from recommender.ground.flaw import Flawed
from recommender.reading.shipped import shipped_rules
from recommender.rulebook import kept
from recommender.rulebook import load as door
from recommender.rulebook.book import Rulebook
from recommender.rulebook.load import load
from recommender.rulebook.seals import SEALED_IDS
from recommender.rulebook.stored import restored, stored


@pytest.fixture(autouse=True)
def cache(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    return tmp_path / "cache" / "borewright" / "books"


@pytest.fixture
def rules(tmp_path: Path) -> Path:
    return Path(shutil.copytree(shipped_rules(), tmp_path / "rules"))


def one(cache: Path) -> Path:
    (found,) = cache.glob("*.json")
    return found


def rewritten(path: Path, data: Any) -> None:
    """Write other data into a kept file, with the hash it then must have."""
    text = json.dumps(data).encode()
    path.write_bytes(hashlib.sha256(text).hexdigest().encode() + b"\n" + text)


def of_kind(data: Any, kind: str) -> list[list[Any]]:
    """Every object of a kind in stored data."""
    inside = data if isinstance(data, list) else list(data.values()) if isinstance(data, dict) else []
    found = [each for part in inside for each in of_kind(part, kind)]
    return [data, *found] if isinstance(data, list) and data and data[0] == kind else found


def test_a_stored_book_is_the_book(book: Rulebook) -> None:
    assert restored(stored(book)) == book


def test_the_second_load_reads_no_rule_file(book: Rulebook, cache: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert load() == book
    one(cache)
    monkeypatch.setattr(door, "_read", lambda folder: pytest.fail("rule files were read"))
    assert load() == book


def test_a_kept_book_needs_neither_yaml_nor_the_models_of_rule_files(cache: Path) -> None:
    load()
    asked = "print({'yaml', 'pydantic', 'numpy'} & {*sys.modules})"
    script = f"import sys; from recommender.rulebook.load import load; load(); {asked}"
    cache.parent.mkdir(parents=True, exist_ok=True)
    same = {**os.environ, "PYTHONPATH": str(kept.PACKAGE.parent)}
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True, cwd=cache.parent, env=same
    )
    assert done.stdout.strip() == "set()"


def test_any_changed_byte_is_read_anew(rules: Path, cache: Path) -> None:
    before = load(rules=rules)
    file = rules / "judgement" / "holding.yaml"
    text = file.read_text(encoding="utf-8")
    file.write_text(f"{text}# a word from the shop\n", encoding="utf-8")
    assert load(rules=rules).fingerprint == before.fingerprint
    assert len(list(cache.glob("*.json"))) == 2
    (rules / "more.yml").write_text("", encoding="utf-8")
    with pytest.raises(Flawed):
        load(rules=rules)


@pytest.mark.parametrize("damage", [b"", b"{", b"\xff\xfe", b"0\n[]", b"\n"])
def test_a_kept_book_that_is_not_whole_is_not_there(book: Rulebook, cache: Path, damage: bytes) -> None:
    load()
    path = one(cache)
    path.write_bytes(damage)
    assert load() == book
    assert path.read_bytes() != damage
    path.write_bytes(path.read_bytes().replace(b"15", b"16", 1))
    assert load() == book


def test_a_kept_book_passes_the_seals_and_the_fingerprint_or_is_not_used(book: Rulebook, cache: Path) -> None:
    load()
    path = one(cache)
    whole = json.loads(path.read_bytes().partition(b"\n")[2])
    sealed = next(each for each in of_kind(whole, "Rule") if each[1] in SEALED_IDS)
    sealed[5] = "supports"
    rewritten(path, whole)
    assert load() == book
    whole = json.loads(path.read_bytes().partition(b"\n")[2])
    of_kind(whole, "Limit")[0][4] += 1.0
    rewritten(path, whole)
    assert load() == book


@pytest.mark.parametrize("data", [[], ["", 1], ["Place", 1], ["print", 1], {"a": ["Rulebook"]}, 3, ["Rulebook"]])
def test_other_data_with_a_right_hash_are_no_book(book: Rulebook, cache: Path, data: Any) -> None:
    load()
    rewritten(one(cache), data)
    assert load() == book


def test_a_cache_that_cannot_be_written_is_done_without(
    book: Rulebook, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "file"))
    assert load() == book


def test_a_kept_book_that_is_a_device_or_very_large_is_not_there(book: Rulebook, cache: Path) -> None:
    load()
    path = one(cache)
    path.unlink()
    path.symlink_to("/dev/zero")
    assert load() == book
    path.unlink(missing_ok=True)
    with path.open("wb") as opened:
        opened.truncate(kept.LARGEST_BYTES + 1)
    assert load() == book


def test_many_writers_leave_a_whole_book(book: Rulebook, cache: Path) -> None:
    with ThreadPoolExecutor(8) as pool:
        found = list(pool.map(lambda at: (kept.keep("key", book), kept.recalled("key"))[1], range(24)))
    assert all(each == book for each in found)
    assert [each.name for each in cache.iterdir()] == ["key.json"]


def test_only_the_latest_books_are_kept(book: Rulebook, cache: Path) -> None:
    for number in range(kept.KEPT + 3):
        kept.keep(f"key-{number}", book)
    assert len(list(cache.iterdir())) == kept.KEPT
