"""Signs of damage are found whatever else is wrong with a file."""

import time
from collections.abc import Callable
from pathlib import Path

import pytest

from recommender.bench.load import FlawedCase, LoadedCase
from recommender.bench.peek import peek_damage, peek_in
from recommender.reading.yaml_reader import steps

Load = Callable[[str], LoadedCase]


@pytest.mark.parametrize(
    ("text", "signs"),
    [
        ("damage: {signs: [{sign: crack, where: bore}]}", ("crack",)),
        ("damage: {signs: [{sing: crack, where: bore, note: deep}]}", ("crack",)),
        ("damage: {signs: [crack, delamination]}", ("crack", "delamination")),
        ("damage: {signs: {crack: {where: bore}}}", ("crack",)),
        ("damage: {signs: {sign: crack}}", ("crack",)),
        ("damaged: {sigs: [{sign: crack}]}", ("crack",)),
        ("damage: {signs: []}\ndamage: {signs: [{sign: crack}]}", ("crack",)),
        ("x: &a 1\ny: *a\ndamage: {signs: [{sign: crack}]}", ("crack",)),
        (
            "n: 0,03\nn: .nan\ndamage: {insert_test: moved}\nhistory: {crash: crashed}",
            ("insert_moved", "crashed"),
        ),
        ("damage: {signs: []}\nhistory: {crash: no_crash}", ()),
        ("damage: {insert_test: firm, notes: crack}", ()),
        ("damage: 3\nhistory: [crashed]", ()),
        ("damage: {signs: [{sign: crack}]}\nbroken: [1, 2", ("crack",)),
        ("damage: [{sign: crack, where: joint}]", ("crack",)),
        ("broken: [1, 2}\ndamage: {signs: [{sign: crack}]}", ("crack",)),
        ("title: 'never closed\ndamage:\n  signs:\n    - {sign: crack, where: lip}\nparts: []\n", ("crack",)),
        ("title: 'never closed\r\ndamage:\r\n  signs:\r\n    - {sign: crack, where: lip}\r\n", ("crack",)),
        ("\tcase: x\nhistory: {crash: crashed}\ndamage: {insert_test: moved}", ("insert_moved", "crashed")),
        ("%YAML 9.9\n---\ndamage: {signs: [crack]}", ("crack",)),
        ("pad: " + "[" * 80 + "\ndamage: {signs: [crack]}", ("crack",)),
        ("]\ndamages: {signs: [crack]}\ndamage: {signs: [delamination", ("crack", "delamination")),
        ("]\n  damage: {signs: [crack]}\nno_damage_here_at_all_that_anybody_would_call_so: {signs: [crack]}", ()),
        ("]\n" + "damage: [\n" * 9 + "damage: {signs: [crack]}", ("damage", "crack")),
        ("case: x\n---\ndamage: {signs: [crack]}", ("crack",)),
        ("case: x\n---\ncase: y\n---\ndamaged: {insert_test: moved}", ("insert_moved",)),
        ("- case: x\n- damage: {signs: [crack]}", ("crack",)),
        ("sides: {drive: {damage: {signs: [crack]}}}\nframe: {history: {crash: crashed}}", ("crack", "crashed")),
        ("damage: {signs: []}\nsides: {drive: {damage: {signs: [crack]}}}", ("crack",)),
        ("sides: {drive: {damaged: {signs: [crack]}}}\ndamage: {signs: []}", ()),
        ("", ()),
        ("- 1\n- 2", ()),
        ("a: " + "[" * 5000, ()),
    ],
)
def test_signs_are_read_from_any_yaml(tmp_path: Path, text: str, signs: tuple[str, ...]) -> None:
    path = tmp_path / "case.yaml"
    path.write_text(text, encoding="utf-8")
    assert peek_damage(path) == signs


def test_a_text_in_utf_16_still_names_its_crack(tmp_path: Path) -> None:
    (tmp_path / "case.yaml").write_text("damage: {signs: [crack]}", encoding="utf-16")
    assert peek_damage(tmp_path / "case.yaml") == ("crack",)


def test_sections_without_end_take_no_time(tmp_path: Path) -> None:
    (tmp_path / "case.yaml").write_text("]\n" + "damage: [" * 100_000, encoding="utf-8")
    start = time.process_time()
    assert set(peek_damage(tmp_path / "case.yaml")) <= {"damage"}
    assert time.process_time() - start < 2


@pytest.mark.parametrize("text", [
    "a:\n" + "- damage: {x: 1}\n- history: {crsh: 1}\n" * 28_000,
    "damag: {x: 1}\n---\n" * 55_000,
    ("a: " + "[{damage: " * 25 + "x" + "}]" * 25 + "\n---\n") * 3_000,
], ids=["sections", "documents", "nested"])  # fmt: skip
def test_sections_and_documents_without_number_take_little_longer_than_parsing_them(text: str) -> None:
    """Taken in turn, the best of three of each: how fast the machine is at the moment counts for both."""
    looked, parsed = zip(*((seconds(peek_in, text), seconds(parse, text)) for _ in range(3)), strict=True)
    assert min(looked) < 2 * min(parsed)


def seconds(work: Callable[[str], object], text: str) -> float:
    start = time.process_time()
    work(text)
    return time.process_time() - start


def parse(text: str) -> int:
    return sum(1 for _ in steps(text, ""))


def test_no_file_means_no_signs(tmp_path: Path) -> None:
    assert peek_damage(tmp_path / "absent.yaml") == ()
    assert peek_damage(tmp_path) == ()


@pytest.mark.parametrize("broken", ["titel: twice\n", "title: twice\n", "bench: *nothing\n", "n: 1:30\n"])
def test_a_flawed_case_still_names_its_crack(valid: str, load: Load, broken: str) -> None:
    with pytest.raises(FlawedCase) as refused:
        load(valid.replace("lacquer_scratch", "crack") + broken)
    assert refused.value.signs == ("crack",)


def test_a_case_refused_by_a_check_still_names_its_crack(valid: str, load: Load) -> None:
    with pytest.raises(FlawedCase) as refused:
        load(valid.replace("lacquer_scratch", "crack").replace("45.972, 45.975", "1.8099, 45.975"))
    assert refused.value.signs == ("crack",)
