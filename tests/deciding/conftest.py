"""Invented rule books and invented facts, built in a few lines."""

from collections.abc import Iterable, Mapping
from types import SimpleNamespace
from typing import Any

import pytest

from recommender.deciding.answer import Advice, CaseShown
from recommender.deciding.assemble import assemble
from recommender.deciding.decide import Decision, decide
from recommender.deriving.derived import Derived, Make, Measured, OptionFacts, SideFacts
from recommender.facts.catalogue import CATALOGUE
from recommender.facts.value import FactValue, number, unknown, word
from recommender.ground.place import Place
from recommender.logic.conditions import Condition, Group, Leaf, Operand, facts_of, limits_of
from recommender.rulebook.book import (
    Bearing,
    Cause,
    HouseChange,
    Limit,
    Part,
    Remedy,
    Rule,
    Rulebook,
    Source,
    Subject,
)

HERE = Place("invented.yaml", 1, 1, 1, 2)
SOURCE = Source("common_practice")
PRESS = Remedy("press_as_is", "Press the part as it is", True, "fits_part", False)
GLUE = Remedy("press_with_compound", "Press with compound", True, "fits_part", False)
CUP = Remedy("oversize_cup", "Turn a cup", True, "turned_part", False)
REAM = Remedy("ream", "Ream the bore", False, "cut", True)
REMEDIES = (PRESS, GLUE, CUP, REAM)
LIMITS = {
    "grip.least": Limit("grip.least", "Least interference", "um", 10.0, "higher", "tighten", SOURCE, HERE),
}


def value(fact: str, given: Any) -> FactValue:
    """A fact from a plain value: None is unknown, a tuple is (value, low, high)."""
    if given is None:
        return unknown(fact, "not looked at")
    if isinstance(given, FactValue):
        return given
    if isinstance(given, bool | str):
        return word(fact, given)
    return number(fact, *given) if isinstance(given, tuple) else number(fact, float(given))


def facts(**given: Any) -> dict[str, FactValue]:
    """Facts by id; in a keyword the first double underscore stands for the dot."""
    named = {key.replace("__", ".", 1): each for key, each in given.items()}
    return {key: value(key, each) for key, each in named.items()}


def leaf(fact: str, op: str, *wanted: Any) -> Leaf:
    """A leaf; a wanted text that is a limit of the invented book is that limit."""
    return Leaf(CATALOGUE[fact], op, tuple(map(_operand, wanted)), HERE)  # type: ignore[arg-type]


def _operand(wanted: Any) -> Operand:
    if wanted in LIMITS:
        return Operand(LIMITS[wanted].value, wanted, LIMITS[wanted].shown)
    return Operand(wanted, None, str(wanted))


def yes(fact: str) -> Leaf:
    """A leaf that holds when a flag is true, fails when it is false, and is undecided when it is unknown."""
    return leaf(fact, "equals", True)


def every(*parts: Condition) -> Group:
    return Group("every", parts, HERE)


def some(*parts: Condition) -> Group:
    return Group("some", parts, HERE)


def rule(name: str, about: Any, stance: str, condition: Condition, **more: Any) -> Rule:
    """A rule about "frame", "side", a tuple of remedies or {"cause": id}."""
    subject = Subject("cause", (about["cause"],)) if isinstance(about, dict) else (
        Subject(about) if isinstance(about, str) else Subject("remedies", tuple(about)))
    given: dict[str, Any] = {
        "title": name.replace("-", " "), "do": ("do-it",) if stance == "asks_first" else (), "if_undecided": None,
        "because": "It is so.", "cautions": (), "deferrals": (), "sealed": False, "layer": "shipped",
    } | more
    return Rule(id=name, about=subject, condition=condition, stance=stance, source=SOURCE,  # type: ignore[arg-type]
                place=HERE, examples=(), limits=limits_of(condition), facts=facts_of(condition), **given)


def book(*rules: Rule, **more: Any) -> Rulebook:
    """A book with these rules; for each remedy of `usable` one reason to use it and one bar that fails."""
    bearing = {
        each: Bearing(each, each, inner, outer, 7.0, (outer - 0.011, outer),
                      {"CN": (0.005, 0.020), "C3": (0.013, 0.028)}, ("CN", "C3"), SOURCE)
        for each, inner, outer in (("6806", 30.0, 42.0), ("6805", 25.0, 37.0))
    }
    parts = {
        each: Part(each, each, kind, "polymer", 46.0, None, 10.0, None, None, inside, False, SOURCE)
        for each, kind, inside in (("cup_30", "cup", "6806"), ("cup_25", "cup", "6805"), ("bare_30", "bearing", "6806"))
    }
    given: dict[str, Any] = {
        "limits": LIMITS, "remedies": REMEDIES, "standards": {}, "fit_classes": {}, "materials": {}, "instruments": {},
        "spreads": {}, "bearings": bearing, "parts": parts, "words": {}, "lists": {}, "tables": {},
        "wording": {"actions": {"do-it": "Do what is asked."}, "cautions": {"careful": "Take care."},
                    "deferrals": {"ask": "Ask somebody who can."}, "notices": {}},
        "standing": (), "causes": {"worn": Cause("worn", "Worn"), "made_so": Cause("made_so", "Made so")},
        "fingerprint": "abc",
    } | more
    return Rulebook(rules=rules, **given)


def usable(*remedies: str) -> tuple[Rule, ...]:
    """For each remedy one reason to use it (part.suits_shell) and one bar (part.measured is false)."""
    return tuple(
        made for each in remedies for made in (
            rule(f"{each}.reason", (each,), "supports", yes("part.suits_shell")),
            rule(f"{each}.bar", (each,), "rules_out", leaf("part.measured", "equals", False)),
        )
    )


def option(remedy: str, part: str = "cup", part_id: str = "cup_30", make: Make | None = None, condition: str = "",
           **given: Any) -> OptionFacts:
    """An option that `usable` clears unless told otherwise."""
    known = facts(part__suits_shell=True, part__measured=True) | facts(**given)
    return OptionFacts(remedy, part, part_id, known, make, condition)


def side(*options: OptionFacts, **given: Any) -> SideFacts:
    return SideFacts(facts(**given), options)


def derived(drive: SideFacts | None = None, non_drive: SideFacts | None = None, crack: bool = False,
            measured: Mapping[str, Measured] | None = None, **frame: Any) -> Derived:
    """Facts of a case; a side left out has one option to press as it is."""
    plain = side(option("press_as_is"))
    return Derived(facts(**frame), {"drive": drive or plain, "non_drive": non_drive or plain}, measured or {}, crack)


def advice(made: Derived, with_book: Rulebook, consent: Iterable[str] = ()) -> Advice:
    case = CaseShown("invented", "Invented case", "2026-05-04", None)
    return assemble(decide(made, with_book), made, with_book, case, frozenset(consent))


def decision(made: Derived, with_book: Rulebook) -> Decision:
    return decide(made, with_book)


def house_change(name: str) -> HouseChange:
    from datetime import date

    return HouseChange("change", name, "10.0 um", "12.0 um", "returns", "workshop lead", date(2026, 1, 2),
                       date(2027, 1, 2), False, HERE)


@pytest.fixture(scope="session")
def bw() -> SimpleNamespace:
    """The builders above."""
    return SimpleNamespace(
        value=value, facts=facts, leaf=leaf, yes=yes, every=every, some=some, rule=rule, book=book, usable=usable,
        option=option, side=side, derived=derived, advice=advice, decision=decision, house_change=house_change,
        REMEDIES=REMEDIES, HERE=HERE,
    )
