"""Every bad case file is refused at an exact line and column, with something to do."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from recommender.bench.load import FlawedCase, LoadedCase, load_case
from recommender.ground.flaw import Flaw

Load = Callable[[str], LoadedCase]
MARK = "§"

# An instrument that is renamed leaves its readings without one.
SEVERAL = {"instrument defined twice": 5}
# What is replaced in the valid case, what by (the mark shows where the flaw must stand), words it says.
BROKEN: dict[str, tuple[str, str, str]] = {
    "misspelt key": ("shell_width:", "§shel_width:", "shel_width"),
    "misspelt key of a reading block": ("two, unit: mm, turns", "two, unit: mm, §turn", "`turns`"),
    "inch entry": ("45.972, 45.975", "45.972, §1.8105", "inches"),
    "inch entry of a part": ("od: 46.032 mm", "od: §1.8123 mm", "inches"),
    "inch entry of a shell width": ("68.1 mm", "§2.681 mm", "inches"),
    "lost digit": ("45.972, 45.975", "45.972, §4.598", "lost digit"),
    "slipped decimal point": ("45.972, 45.975", "45.972, §459.8", "slipped decimal point"),
    "micrometres": ("45.972, 45.975", "45.972, §45975", "micrometres"),
    "no bore at all": ("45.972, 45.975", "45.972, §75.2", "cannot be"),
    "not a number": ("45.972, 45.975", "45.972, §.nan", ""),
    "negative": ("45.972, 45.975", "45.972, §-45.975", "cannot be"),
    "negative length": ("68.1 mm", "§-68.1 mm", "greater than nothing"),
    "zero": ("size: 8 mm", "size: §0 mm", "greater than nothing"),
    "key written twice": ("title:", "§case: again\ntitle:", ""),
    "alias": ("engineer: bench 2", "engineer: §*somebody", ""),
    "depth beyond the seat": ("8: [45.971, 45.973", "§12: [45.971, 45.973", "beyond the seat"),
    "depth of a span beyond the seat": ("spans: {2:", "spans: {§11:", "beyond the seat"),
    "outside the instrument's range": ("45.972, 45.975", "45.972, §50.975", "outside the range"),
    "misspelt instrument": ("instrument: mic", "instrument: §mik", "not defined"),
    "misspelt instrument of a part": ("by: two", "by: §tow", "not defined"),
    "wrong unit": ("68.1 mm", "§68.1 degC", "temperature"),
    "inches as unit": ("68.1 mm", "§2.68 in", "inches"),
    "no unit": ("wall: 3.0 mm", "wall: §3.0", ""),
    "wrong unit of readings": ("two, unit: mm, turns", "two, unit: §in, turns", "mm"),
    "base 60": ("months: 26", "months: §1:30", ""),
    "decimal comma": ("wall: 3.0 mm", 'wall: §"3,0 mm"', "comma"),
    "row too short": ("2: [45.974, 45.970, 45.975]", "2: §[45.974, 45.970]", "turns"),
    "span the wrong way round": ("[45.976, 45.983]", "§[45.983, 45.976]", "larger than"),
    "calibrated later than received": ("calibrated: 2026-02-12", "calibrated: §2026-05-05", "after"),
    "instrument defined twice": ("- {id: two,", "- {id: §mic,", "twice"),
    "range the wrong way round": ("range: [35 mm, 60 mm]", "range: §[60 mm, 35 mm]", "wrong way round"),
    "gauge of another bore": ("{kind: go, size: 45.950 mm", "{kind: go, size: §40.950 mm", "gauge"),
    "no-go smaller than go": ("no_go, size: 46.000 mm", "no_go, size: §45.900 mm", "smaller"),
    "gauge depth missing": ("{kind: no_go, size: 46.000 mm, result: did_not_enter}",
                            "§{kind: no_go, size: 46.000 mm, result: entered_to}", "depth"),
    "ring far off": ("before: 46.001 mm", "before: §46.201 mm", "ring"),
    "error limit in mm": ("error_limit: 4 um", "error_limit: §4 mm", "micrometres"),
    "readings that differ by a millimetre": ("[[45.978, 45.979]", "[[45.978, §47.079]", "off the middle"),
    "strike that hits nothing": ("struck: {8: {40", "struck: {§7: {40", "nothing was read"),
    "turn that hits nothing": ("struck: {8: {40", "struck: {8: {§60", "nothing was read"),
    "turn written twice": ("turns: [0, 60, 120]", "turns: [0, 60, §60]", "twice"),
    "Fahrenheit": ("20.4 degC", "§68.7 degC", "Fahrenheit"),
    "photograph nobody listed": ("photo: p07", "photo: §p08", "not listed"),
    "arithmetic that is wrong": ('"46.032 - 45.972 = 0.060', '§"46.032 - 45.972 = 0.070', "does not compute"),
    "bad date": ("received: 2026-05-04", "received: §2026-05-34", ""),
    "grid without turns": (
        "{instrument: two, unit: mm, turns: [0, 60, 120],", "§{instrument: two, unit: mm,", "turns"),
    "block without a reading": ("spans: {2: [45.976, 45.983]}", "§spans: {}", "at least 1"),
    "two forms in one block": ("{instrument: two, unit: mm, loose: [45.98]}",
                               "§{instrument: two, unit: mm, loose: [46], spans: [45.9, 46]}", "one form"),
    "by and within": ("od: {value: 46.030 mm, by: two, repeats: 3}",
                      "§od: {value: 46.030 mm, by: two, within: 3 um}", "both state"),
    "case id with a slash": ("case: lane-2041", "case: §lane/2041", "letters"),
}  # fmt: skip


def refused(load: Load, text: str) -> tuple[Flaw, ...]:
    """Return the flaws for which a text is refused."""
    with pytest.raises(FlawedCase) as caught:
        load(text)
    return caught.value.flaws


def line_of(text: str, words: str) -> int:
    """Return the line on which the words first stand."""
    return text[: text.index(words)].count("\n") + 1


def marked(text: str) -> tuple[int, int]:
    """Return line and column of the mark in a text."""
    before = text[: text.index(MARK)]
    return before.count("\n") + 1, len(before) - (before.rfind("\n") + 1) + 1


@pytest.mark.parametrize("name", BROKEN)
def test_a_flaw_is_found_where_it_stands_and_says_what_to_do(valid: str, load: Load, name: str) -> None:
    old, new, words = BROKEN[name]
    assert old in valid
    text = valid.replace(old, new, 1)
    place = marked(text)
    flaws = refused(load, text.replace(MARK, ""))
    found = [flaw for flaw in flaws if (flaw.place.line, flaw.place.column) == place]
    assert found, [str(flaw) for flaw in flaws]
    assert all(flaw.advice.strip() for flaw in flaws)
    assert any(words in flaw.message + flaw.advice for flaw in found), [str(flaw) for flaw in found]
    assert "^" in found[0].shown


@pytest.mark.parametrize("name", BROKEN)
def test_one_mistake_is_one_flaw(valid: str, load: Load, name: str) -> None:
    old, new, _ = BROKEN[name]
    flaws = refused(load, valid.replace(old, new, 1).replace(MARK, ""))
    assert len(flaws) == SEVERAL.get(name, 1), [str(flaw) for flaw in flaws]


def test_inches_are_converted_in_the_advice(valid: str, load: Load) -> None:
    (flaw,) = refused(load, valid.replace("45.972, 45.975", "45.972, 1.8105", 1))
    assert "1.8105 in is 45.987 mm" in flaw.advice


def test_a_misspelt_instrument_is_named_rightly(valid: str, load: Load) -> None:
    (flaw,) = refused(load, valid.replace("instrument: mic", "instrument: mik", 1))
    assert "`mic`" in flaw.advice


@pytest.mark.parametrize("side", ["drive", "non_drive"])
def test_both_sides_must_be_there(valid: str, load: Load, side: str) -> None:
    start, end = valid.index("  drive:"), valid.index("  non_drive:")
    tail = valid.index("alignment:")
    text = valid[:start] + valid[end:] if side == "drive" else valid[:end] + valid[tail:]
    (flaw,) = refused(load, text)
    assert (flaw.place.line, flaw.place.column) == (valid[: valid.index("sides:")].count("\n") + 1, 1)
    assert side in flaw.message
    assert flaw.advice


def test_every_flaw_is_told_at_once(valid: str, load: Load) -> None:
    text = valid.replace("shell_width:", "shel_width:").replace("45.972, 45.975", "45.972, 1.8105", 1)
    text = text.replace("by: two", "by: tow").replace("68.1 mm", "2.68 in")
    assert {flaw.place.line for flaw in refused(load, text)} == {
        line_of(text, "shel_width"),
        line_of(text, "1.8105"),
        line_of(text, "by: tow"),
    }


@pytest.mark.parametrize(
    "content",
    [b"", b"\n\n", b"# only a remark\n", b"\x00\x01\x02\xff\xfe" * 40, b"title: \xff\xfe", b"- 1\n- 2\n",
     b"just words\n",
     b"a: " + b"[" * 400 + b"]" * 400, b"case: x\n" * 1_250_000],
    ids=["empty", "blank", "remark", "binary", "not utf-8", "list", "text", "deep", "10 MB"],
)  # fmt: skip
def test_a_file_that_is_no_case_is_refused(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "case.yaml"
    path.write_bytes(content)
    with pytest.raises(FlawedCase) as caught:
        load_case(path)
    assert caught.value.flaws[0].place.line >= 1
    assert all(flaw.advice.strip() for flaw in caught.value.flaws)


def test_a_directory_is_refused(tmp_path: Path) -> None:
    with pytest.raises(FlawedCase) as caught:
        load_case(tmp_path)
    assert caught.value.flaws[0].advice


def test_an_absent_file_is_refused(tmp_path: Path) -> None:
    with pytest.raises(FlawedCase) as caught:
        load_case(tmp_path / "absent.yaml")
    assert caught.value.flaws[0].advice


def test_a_file_nobody_may_read_is_refused(
    tmp_path: Path, valid: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "case.yaml"
    path.write_text(valid, encoding="utf-8")

    def denied(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied", os.fspath(path))

    for name in ("open", "read_bytes", "read_text"):
        monkeypatch.setattr(Path, name, denied)
    monkeypatch.setattr("builtins.open", denied)
    with pytest.raises(FlawedCase) as caught:
        load_case(path)
    assert caught.value.flaws[0].advice
