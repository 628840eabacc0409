"""What is checked once a part is pressed: the checks there are, how an answer is written, and what it should be."""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from recommender.ground.quantity import UNITS, parse
from recommender.ground.suggest import did_you_mean

SIDES = ("drive", "non_drive")


class AfterCheck(NamedTuple):
    """One check: how people name it, the answer wanted (`yes` or `no`), or the unit of what is measured."""

    name: str
    wanted: str = ""
    unit: str = ""


OF_SIDE = {
    "seated": AfterCheck("part seated all round", wanted="yes"),
    "bearing_spins": AfterCheck("bearing turns free by hand, before the spindle goes in", wanted="yes"),
    "force": AfterCheck("force of pressing", unit="N"),
}
OF_FRAME = {
    "spindle_turns": AfterCheck("spindle runs on after a flick", wanted="yes"),
    "side_play": AfterCheck("side play", wanted="no"),
    "quiet": AfterCheck("quiet under hard standing starts", wanted="yes"),
    "flush_difference": AfterCheck("difference of the two sides in how far they stand out", unit="mm"),
}
ALL: Mapping[str, AfterCheck] = {
    **{f"{side}.{name}": check for side in SIDES for name, check in OF_SIDE.items()}, **OF_FRAME,
}  # fmt: skip


def entered(given: Iterable[str]) -> dict[str, str]:
    """Return answers written as `drive.bearing_spins=yes` by check; raises ValueError saying what is wrong."""
    found: dict[str, str] = {}
    for text in given:
        name, equals, answer = (each.strip() for each in text.partition("="))
        if not equals or not answer:
            raise ValueError(f"`{text}` is no answer to a check; write it like `drive.bearing_spins=yes`")
        if name in found:
            raise ValueError(f"`{name}` is answered twice")
        found[name] = answer
    for name, answer in found.items():
        if wrong := wrong_answer(name, answer):
            raise ValueError(wrong)
    return found


def wrong_answer(name: str, answer: str) -> str:
    """Return what is wrong with an answer, empty when nothing is."""
    check = ALL.get(name)
    if check is None:
        return f"there is no check `{name}`. {did_you_mean(name, ALL)}"
    if check.wanted:
        return "" if answer in ("yes", "no") else f"`{name}` is answered yes or no, not `{answer}`"
    try:
        quantity = parse(answer)
    except ValueError as error:
        return f"`{name}`: {error}"
    same = UNITS[quantity.unit].kind == UNITS[check.unit].kind
    return "" if same and quantity.value >= 0 else f"`{name}` is measured in {check.unit}, not `{answer}`"


def not_as_wanted(answers: Mapping[str, str]) -> list[str]:
    """Return the checks whose answer is not the one wanted, by name."""
    return [name for name, answer in answers.items() if name in ALL and ALL[name].wanted not in ("", answer)]


def missing(answers: Mapping[str, str], pressed: Iterable[str]) -> list[str]:
    """Return the checks of the sides on which something was pressed, and of the frame, that nobody answered."""
    sides = tuple(pressed)
    asked = [*(f"{side}.{name}" for side in sides for name in OF_SIDE), *(OF_FRAME if sides else ())]
    return [each for each in asked if each not in answers]
