"""Places and excerpts."""

from recommender.ground.place import WIDEST_EXCERPT, Place, excerpt, whole_file


def test_a_place_reads_as_file_line_column() -> None:
    assert str(Place("case.yaml", 3, 7, 3, 9)) == "case.yaml:3:7"
    assert str(whole_file("case.yaml")) == "case.yaml:1:1"


def test_carets_stand_under_the_marked_characters() -> None:
    shown = excerpt("a: 1\nwall: 3 mm\n", Place("f", 2, 7, 2, 11))
    assert shown.splitlines() == ["    2 | wall: 3 mm", "              ^^^^"]


def test_a_range_over_several_lines_is_marked_to_the_end_of_its_first_line() -> None:
    assert excerpt("abc\ndef\n", Place("f", 1, 2, 2, 2)).splitlines()[1] == " " * 9 + "^^"


def test_an_empty_range_still_gets_one_caret() -> None:
    assert excerpt("abc", Place("f", 1, 4, 1, 4)).endswith(" " * 11 + "^")


def test_long_lines_are_cut_around_the_mark() -> None:
    line, mark = excerpt("x" * 500 + "HERE" + "y" * 500, Place("f", 1, 501, 1, 505)).splitlines()
    assert len(line) == len("    1 | ") + WIDEST_EXCERPT
    assert line[mark.index("^") : mark.rindex("^") + 1] == "HERE"


def test_tabs_and_control_characters_do_not_shift_the_caret() -> None:
    line, mark = excerpt("a\tb\x0cc: HERE", Place("f", 1, 8, 1, 12)).splitlines()
    assert line[mark.index("^") :] == "HERE"


def test_only_real_line_ends_count_as_lines() -> None:
    assert excerpt("a\x0b\u2028b\r\nHERE", Place("f", 2, 1, 2, 5)).startswith("    2 | HERE")


def test_a_line_that_does_not_exist_gives_nothing() -> None:
    assert excerpt("", whole_file("f")) == ""
    assert excerpt("a", Place("f", 9, 1, 9, 1)) == ""
