"""Which shells agree with what was measured; sizes as the standards pages report them."""

from collections.abc import Callable
from typing import Any

import pytest

from recommender.deriving.derived import Derived
from recommender.deriving.identity import Room, Seen, agreeing, told_apart_by
from recommender.facts.catalogue import CATALOGUE
from recommender.rulebook.book import Rulebook

Make = Callable[..., Derived]
ROOM = Room(-0.45, 0.45, 0.6)
NOTHING = Seen((), None, None, None, None)


def names(book: Rulebook, seen: Seen, stated: str = "") -> list[str]:
    return [each.id for each in agreeing(book.standards.values(), seen, ROOM, stated)]


def bore(size: float) -> tuple[tuple[float, float], ...]:
    return ((size - 0.004, size + 0.004),)


@pytest.mark.parametrize(
    ("seen", "wanted"),
    [
        (NOTHING._replace(bores=bore(45.973), width=(67.9, 68.1), stop="flange_face"), ["pf30"]),
        (NOTHING._replace(bores=bore(45.973), width=(67.9, 68.1)), ["pf30", "t47"]),
        (NOTHING._replace(bores=bore(45.973), width=(86.4, 86.6), stop="flange_face"), ["bb386"]),
        (NOTHING._replace(bores=bore(41.003), width=(86.4, 86.6)), ["bb86"]),
        (NOTHING._replace(bores=bore(41.970), width=(67.9, 68.1), stop="circlip_groove"), ["bb30"]),
        (NOTHING._replace(bores=bore(41.970), width=(67.9, 68.1)), ["bb30", "direct_42_68"]),
        (NOTHING._replace(bores=bore(37.0), material="carbon"), ["direct_seat_37"]),
        (NOTHING._replace(bores=bore(37.0), material="steel"), ["spanish_bmx"]),
        (NOTHING._replace(bores=bore(41.0), width=(67.9, 68.1)), ["mid_bmx"]),
        (NOTHING._replace(bores=bore(44.0)), []),
        (NOTHING._replace(bores=bore(45.973), width=(89.9, 90.1)), []),
    ],
)
def test_shells_that_agree(book: Rulebook, seen: Seen, wanted: list[str]) -> None:
    assert names(book, seen) == wanted


def test_every_shell_agrees_with_its_own_sizes(book: Rulebook) -> None:
    for shell in book.standards.values():
        for width in shell.widths:
            seen = Seen(bore(shell.bore.nominal), (width, width), *shell.stops[:1] or [None], None, None)
            assert shell.id in names(book, seen)


def test_a_spindle_chooses_and_leaves_the_stated_shell(book: Rulebook) -> None:
    seen = NOTHING._replace(bores=bore(37.0), spindle=19.0)
    assert names(book, seen) == ["spanish_bmx"]
    assert names(book, seen, "direct_seat_37") == ["direct_seat_37", "spanish_bmx"]


@pytest.mark.parametrize(
    ("ids", "seen", "wanted"),
    [
        (("pf30", "t47"), NOTHING._replace(bores=bore(46), width=(68, 68)), "stop"),
        (("pf30", "pf30a"), NOTHING._replace(bores=bore(46), width=(73, 73), stop="flange_face"), "middle"),
        (("bb386", "bb86"), NOTHING._replace(width=(86.5, 86.5), stop="flange_face"), "bore"),
        (("bb86", "bb92"), NOTHING._replace(bores=bore(41), stop="flange_face"), "width"),
        (("pf30",), NOTHING._replace(bores=bore(46)), None),
    ],
)
def test_what_tells_shells_apart(book: Rulebook, ids: tuple[str, ...], seen: Seen, wanted: str | None) -> None:
    assert told_apart_by([book.standards[each] for each in ids], seen, ROOM) == wanted


@pytest.mark.parametrize(
    ("changes", "agrees", "candidates"),
    [
        ({}, True, "pf30, t47"),
        ({"frame.standard": "bb30"}, False, "pf30, t47"),
        ({"frame.standard": "bb30", "frame.stop": "flange_face"}, False, "pf30"),
        ({"frame.standard": "pf30", "frame.stop": "thread"}, False, "t47"),
        ({"frame.standard": "unknown"}, None, "pf30, t47"),
        ({"frame.shell_width": "92.0 mm", "frame.standard": "bb92"}, False, "t47"),
    ],
)
def test_the_shell_named_against_the_measures(
    derived: Make, changes: dict[str, Any], agrees: bool | None, candidates: str
) -> None:
    frame = derived(changes).frame
    assert frame["frame.standard_agrees"].word is agrees
    assert frame["frame.candidates"].word == candidates


def test_nothing_is_judged_against_a_standard_in_doubt(derived: Make) -> None:
    sound, doubted = derived(), derived({"frame.standard": "bb30"})
    assert sound.sides["drive"].facts["conformity.size"].word == "proved_conforming"
    assert {doubted.sides["drive"].facts[f"conformity.{each}"].word for each in ("size", "envelope", "form")} == {
        "not_judged"
    }


def test_a_threaded_shell_has_damage_but_no_bore(derived: Make) -> None:
    found = derived({"frame.standard": "t47"})
    side = found.sides["drive"]
    assert side.options == ()
    about_bores = {each for each in CATALOGUE if each.startswith(("bore.", "evidence.", "seat."))} & set(side.facts)
    for fact in about_bores - {"bore.cut_before"}:
        assert not side.facts[fact].applies, fact
    assert side.facts["damage.crushed_lip"].word is False
    assert side.facts["conformity.size"].word == "no_published_limit"


def test_one_fact_for_each_symptom(derived: Make, book: Rulebook) -> None:
    facts = {each.removeprefix("symptom.") for each in CATALOGUE if each.startswith("symptom.")}
    assert facts == set(book.words["symptoms"])
    for symptom in facts:
        frame = derived({"history.symptoms": [symptom]}).frame
        assert {each for each in facts if frame[f"symptom.{each}"].word} == {symptom}
