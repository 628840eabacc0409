"""The kept inputs and a few hundred changes to them, the same every time; the search itself is `python tests/fuzz`."""

import json
import sys
import time
from pathlib import Path
from random import Random

import pytest

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from fuzz.mutate import CHANGES, changed
from fuzz.targets import CORPUS, TARGETS, kept, looked_at
from fuzz.watch import TooMuch, Watch
from recommender.ground.flaw import Flaw, Flawed
from recommender.ground.place import whole_file

INPUTS = 1_000


@pytest.mark.parametrize("name", TARGETS)
def test_kept_inputs_and_changes_to_them_end_in_words(name: str, tmp_path: Path) -> None:
    target, pool, random, taken = TARGETS[name], kept(name), Random(2026), 0
    path = tmp_path / "input"
    for count in range(INPUTS):
        content = pool[count] if count < len(pool) else changed(random.choice(pool), pool, random)
        path.write_bytes(content)
        try:
            taken += target(path)
        except Exception as error:
            raise AssertionError(f"input {count}: {content!r}") from error
    # Were all refused, or none, nothing behind the reader would have been reached.
    assert 0 < taken < INPUTS


def test_the_kept_inputs_are_few_and_small() -> None:
    sizes = [path.stat().st_size for path in CORPUS.rglob("*") if path.is_file()]
    assert 20 <= len(sizes) <= 80
    assert max(sizes) <= 4096


def test_every_change_changes_something() -> None:
    pool = kept("loader")
    for change in set(CHANGES):
        made = {change(pool[0], pool, Random(seed)) for seed in range(20)}
        assert len(made - {pool[0]}) > 3, change
        for text in (b"", b"\n", b"a"):
            change(text, [text], Random(1))


def test_a_search_stops_at_what_is_no_flaw(tmp_path: Path) -> None:
    def broken(path: Path) -> bool:
        return bool({}["nothing"])

    with pytest.raises(KeyError):
        Watch("broken", broken, tmp_path / "input").one(b"a: 1")


def test_a_search_stops_at_what_takes_long(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("fuzz.watch.SLOWEST", 0.01)

    def slow(path: Path) -> bool:
        end = time.thread_time() + 0.03
        while time.thread_time() < end:
            pass
        return True

    with pytest.raises(TooMuch, match="processor time"):
        Watch("slow", slow, tmp_path / "input").one(b"a: 1")


def test_a_search_stops_at_what_takes_much_memory(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("fuzz.watch.MOST_MEMORY", 1)
    with pytest.raises(TooMuch, match="MB"):
        Watch("reader", TARGETS["reader"], tmp_path / "input").one(b"a: 1")


def test_a_flaw_without_advice_is_seen(tmp_path: Path) -> None:
    place = whole_file(str(tmp_path / "input"))
    looked_at(Flawed([Flaw("x", place, "wrong", "mend it")]), tmp_path / "input")
    with pytest.raises(AssertionError):
        looked_at(Flawed([Flaw("x", place, "wrong", " ")]), tmp_path / "input")
    with pytest.raises(AssertionError):
        looked_at(Flawed([Flaw("x", place, "wrong", "mend it")]), tmp_path / "another")


def test_figures_are_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    # The most this process ever held is that of all tests before this one.
    monkeypatch.setattr("fuzz.watch.MOST_MEMORY", 10**6)
    watch = Watch("reader", TARGETS["reader"], tmp_path / "input", tmp_path / "figures.json")
    for content in (b"a: 1", b"a: ]", b"b: 2"):
        watch.one(content)
    watch.tell()
    told = json.loads((tmp_path / "figures.json").read_text("utf-8"))
    assert (told["inputs"], told["taken"], told["slowest_bytes"] > 0) == (3, 2, True)
