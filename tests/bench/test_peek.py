"""Signs of damage are found whatever else is wrong with a file."""

from collections.abc import Callable
from pathlib import Path

import pytest

from recommender.bench.load import FlawedCase, LoadedCase
from recommender.bench.peek import peek_damage

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
        ("broken: [1, 2}\ndamage: {signs: [{sign: crack}]}", ()),
        ("", ()),
        ("- 1\n- 2", ()),
        ("a: " + "[" * 5000, ()),
    ],
)
def test_signs_are_read_from_any_yaml(tmp_path: Path, text: str, signs: tuple[str, ...]) -> None:
    path = tmp_path / "case.yaml"
    path.write_text(text, encoding="utf-8")
    assert peek_damage(path) == signs


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
