"""Data, places and flaws of YAML texts, with both parsers."""

from contextlib import suppress
from pathlib import Path
from time import process_time

import pytest

from recommender.ground.flaw import MOST_FLAWS, Flaw, Flawed
from recommender.reading.files import LARGEST_BYTES
from recommender.reading.yaml_reader import Document, read_file, read_text, steps

pytestmark = pytest.mark.usefixtures("parser")
TREE = """\
frame: {material: carbon, wall: 3.0 mm}
sides:
  drive:
    readings:
      - {at: {2: [45.972, 45.975]}}
      - 'quoted'
note: |
  two
  lines
"""


def flaws(text: str) -> tuple[Flaw, ...]:
    with pytest.raises(Flawed) as refused:
        read_text(text, "f")
    return refused.value.flaws


def where(found: Flaw) -> str:
    return f"{found.place.line}:{found.place.column} {found.check}"


def span(document: Document, *path: str | int, key: bool = False) -> str:
    place = document.place(path, key)
    return f"{place.line}:{place.column}-{place.end_line}:{place.end_column}"


def test_data() -> None:
    assert read_text(TREE, "f").data == {
        "frame": {"material": "carbon", "wall": "3.0 mm"},
        "sides": {"drive": {"readings": [{"at": {"2": [45.972, 45.975]}}, "quoted"]}},
        "note": "two\nlines\n",
    }


def test_places() -> None:
    document = read_text(TREE, "f")
    assert span(document, "frame", key=True) == "1:1-1:6"
    assert span(document, "frame", "wall") == "1:33-1:39"
    assert span(document, "frame", "wall", key=True) == "1:27-1:31"
    assert span(document, "frame") == "1:8-1:40"
    assert span(document, "sides", "drive", "readings", 0, "at", "2", 1) == "5:27-5:33"
    assert span(document, "sides", "drive", "readings", 0, "at", "2", key=True) == "5:15-5:16"
    assert span(document, "sides", "drive", "readings", 1) == "6:9-6:17"
    assert span(document, "sides", "drive", "readings", 1, key=True) == "6:9-6:17"
    assert document.file == "f"
    assert document.text == TREE


def test_an_unknown_path_gives_its_nearest_known_ancestor() -> None:
    document = read_text(TREE, "f")
    assert span(document, "sides", "drive", "press", "force") == "3:3-3:8"
    assert span(document, "sides", "drive", "readings", 0, "instrument") == "5:9-5:36"
    assert span(document, "alignment").startswith("1:1-")


def test_keys_and_quoted_scalars_stay_text() -> None:
    assert read_text("on: '010'\n5: \"no\"\n1e3: '~'\nnull: ''\n", "f").data == {
        "on": "010",
        "5": "no",
        "1e3": "~",
        "null": "",
    }


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("a: no\n", "1:4 yaml.scalar"),
        ("a: [1, Yes]\n", "1:8 yaml.scalar"),
        ("a: 30:15\n", "1:4 yaml.scalar"),
        ("b: 1\na: {x: 010}\n", "2:8 yaml.scalar"),
        ("a: .nan\n", "1:4 yaml.scalar"),
        ("a: 0,03\n", "1:4 yaml.scalar"),
        ("a: ~\n", "1:4 yaml.scalar"),
        ("a:\nb: 1\n", "1:1 yaml.empty-value"),
        ("b: {a: }\n", "1:5 yaml.empty-value"),
        ("b:\n  - 1\n  -\n", "3:4 yaml.empty-value"),
        ("a: 1\nb: 2\na: 3\n", "3:1 yaml.duplicate-key"),
        ("x: {a: 1, a: {b: 2}}\n", "1:11 yaml.duplicate-key"),
        ("a: &x 1\n", "1:4 yaml.anchor"),
        ("a: &x {b: 1}\n", "1:4 yaml.anchor"),
        ("a: *x\n", "1:4 yaml.alias"),
        ("*x : 1\n", "1:1 yaml.alias"),
        ("<<: {a: 1}\n", "1:1 yaml.merge-key"),
        ("a: !!str 1\n", "1:4 yaml.tag"),
        ("a: ! 1\n", "1:4 yaml.tag"),
        ("a: !!python/object:os.system {}\n", "1:4 yaml.tag"),
        ("a: 1\n---\nb: 2\n", "2:1 yaml.documents"),
        ("%YAML 1.2\n---\na: 1\n", "1:1 yaml.directive"),
        ("? [1, 2]\n: 3\n", "1:3 yaml.key"),
        ("? {a: {b: 1}}\n: 3\n", "1:3 yaml.key"),
        ("'': 3\n", "1:1 yaml.empty-key"),
        ("a: 1\nb: x\x00y\n", "2:5 yaml.hidden-character"),
        ("a:\n\tb: 3\n", "2:1 yaml.tab"),
        ("a: 3\t# three\n", "1:5 yaml.tab"),
        ("a: 1\r\nb: \x07\r\n", "2:4 yaml.hidden-character"),
        ("a: x\u2028y\n", "1:5 yaml.hidden-character"),
        ("a: x\ufeffy\n", "1:5 yaml.hidden-character"),
        ('a: "x\\0y"\n', "1:4 yaml.hidden-character"),
        ('a: "\\ud800"\n', "1:4 yaml.hidden-character"),
        ("", "1:1 yaml.empty"),
        ("# a comment\n", "1:1 yaml.empty"),
        ("- 1\n- 2\n", "1:1 yaml.top-level"),
        ("only text\n", "1:1 yaml.top-level"),
        ("a: " + "[" * 2000, "1:33 yaml.depth"),
        ("a: " + "{b: " * 40 + "1" + "}" * 40 + "\n", "1:120 yaml.depth"),
        ("\n".join(" " * level + "a:" for level in range(40)), "31:31 yaml.depth"),
    ],
)
def test_what_is_refused_and_where(text: str, expected: str) -> None:
    assert [where(found) for found in flaws(text)] == [expected]


@pytest.mark.parametrize(
    ("text", "expected", "message"),
    [
        ("a: [1,2\nb: 3\n", "1:4", "a list in brackets is not finished"),
        ("a: {b: 1\nc: 3\n", "1:4", "a mapping in braces is not finished"),
        ("a: {b: [1, 2}\n", "1:13", "a list in brackets is not finished"),
        ("a: {b: 1 c: 2}\n", "1:11", "a mapping in braces is not finished"),
        ("a: [1, 2", "1:4", "a list in brackets is not finished"),
        ("a: 'x\nb: 3\n", "1:4", "a quote is opened here"),
        ("a: b: c\n", "1:5", "a second colon"),
        ("a: 1\nc\nd: 3\n", "2:1", "a line without a colon"),
        ("a:\n  b: 1\n c: 2\n", "3:2", "does not line up"),
        ("a: @x\n", "1:4", "cannot start a text"),
        ("a: - 1\n", "1:4", "a dash stands where no list can start"),
        ('a: "\\q"\n', "1:6", "a backslash in double quotes"),
        ('a: "\\UFFFFFFFF"\n', "1:1", "a backslash in double quotes"),
    ],
)
def test_syntax_in_our_words(text: str, expected: str, message: str) -> None:
    (found,) = flaws(text)
    assert where(found) == f"{expected} yaml.syntax"
    assert message in found.message
    assert found.advice


def test_all_flaws_of_a_file_at_once() -> None:
    found = flaws("a: no\nb:\nc: 0,03\na: *x\nd: [1, 2\n")
    assert [where(each).split()[0] for each in found] == ["1:4", "2:1", "3:4", "4:1", "4:4", "5:4"]


def test_flaws_beside_an_unreadable_character() -> None:
    found = flaws("a:\n\tb: no\nc: \x07\nc: [\n")
    assert [where(each) for each in found] == [
        "2:1 yaml.tab",
        "2:5 yaml.scalar",
        "3:4 yaml.hidden-character",
        "4:1 yaml.duplicate-key",
    ]


def test_a_file_full_of_unreadable_characters_is_not_listed_in_full() -> None:
    assert len(flaws("\x01" * 1000)) == 10


def test_a_duplicate_cites_both_places() -> None:
    (found,) = flaws("x:\n  wall: 1 mm\n  wall: 2 mm\n")
    assert found.message == "the key `wall` stands here a second time; the first is at 2:3"
    assert found.advice == "Keep one of the two (lines 2 and 3)."


def test_a_decimal_comma_in_braces_is_recognised() -> None:
    (leading, empty) = flaws("a: {value: 0,03}\nb: [0,03]\n")
    assert (where(leading), where(empty)) == ("1:14 yaml.empty-value", "2:7 yaml.scalar")
    assert "decimal comma" in leading.advice
    assert "decimal comma" in empty.advice


def test_a_decimal_comma_before_a_unit_is_recognised_in_braces() -> None:
    (found,) = flaws("a: {width: 68,1 mm, wall: 3 mm}\n")
    assert "decimal comma" in found.advice


def test_an_alias_bomb_is_refused_without_being_unfolded() -> None:
    lines = ["a0: &a0 [x, x]"] + [f"a{n}: &a{n} [*a{n - 1}, *a{n - 1}]" for n in range(1, 30)]
    assert {found.check for found in flaws("\n".join(lines))} == {"yaml.anchor", "yaml.alias"}


def test_a_byte_order_mark_and_other_line_ends_are_fine(tmp_path: Path) -> None:
    path = tmp_path / "case.yaml"
    path.write_bytes(b"\xef\xbb\xbfa: 1\r\nb: '\xc3\xa4' \r\n")
    document = read_file(path, "shown.yaml")
    assert document.data == {"a": 1, "b": "\u00e4"}
    assert str(document.place(("b",))) == "shown.yaml:2:4"


def test_a_text_beyond_the_cap_is_refused() -> None:
    (found,) = flaws("a: " + "x" * LARGEST_BYTES)
    assert where(found) == "1:1 file.too-large"


def test_columns_count_characters_not_bytes() -> None:
    assert str(read_text("\u00e4\u00f6: {\u00fc: 3, b: 4}", "f").place(("\u00e4\u00f6", "b"))) == "f:1:15"


def test_steps_look_into_a_file_that_is_refused() -> None:
    walk = steps("signs: [crack]\nsigns: [&x {where: bore\x00}]\n", "f")
    assert [step.value for step in walk if step.kind == "scalar"] == ["signs", "crack", "signs", "where", "borex"]


def test_no_more_than_a_hundred_flaws_are_listed() -> None:
    found = flaws("a: [" + "no, " * 100_000 + "]")
    assert len(found) == MOST_FLAWS + 1
    assert [each.check for each in found if each.level == "note"] == ["file.many-flaws"]


@pytest.mark.parametrize("value", ["9" * 500_000, "9_" * 200_000 + "x", "0" * 500_000 + "x", "9:" * 200_000 + "x"])
def test_long_scalars_take_no_time(value: str) -> None:
    start = process_time()
    with suppress(Flawed):
        read_text(f"a: {value}\n", "f")
    assert process_time() - start < 5
