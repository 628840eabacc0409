"""What is proved against the published standard: another question than whether a part fits."""

from collections.abc import Mapping

from recommender.account.lines import Line, wrapped
from recommender.account.words import CONFORMITY, SIDES, capital, listed, readable
from recommender.deciding.answer import Advice, Found, SideShown
from recommender.ground.quantity import show

PROBABLE = {"size": "size", "local size": "local", "envelope": "envelope"}
RULE = "judged at 95 % by the default rule of ISO 14253-1"


def conformity_lines(advice: Advice) -> list[Line]:
    """Return what is proved of each side, told once where both are alike, and where the limits come from."""
    told: dict[str, list[str]] = {}
    for name, side in advice.sides.items():
        told.setdefault(_proved(side), []).append(name)
    sources = dict.fromkeys(each.conformity.limit_source for each in advice.sides.values())
    limits = "; ".join([*(each for each in sources if each), *_guard(advice)])
    return [
        *(line for text, names in told.items() for line in wrapped(f"{_where(names)}: {text}.", "  ")),
        *(wrapped(f"Limits at 20 degC: {limits}.", "  ") if limits else []),
    ]


def _where(names: list[str]) -> str:
    return capital(SIDES[names[0]]) if len(names) == 1 else "Both sides"


def _proved(side: SideShown) -> str:
    by_word: dict[str, list[str]] = {}
    for what, word in answers(side).items():
        by_word.setdefault(word, []).append(what + _probable(side.facts, what))
    return "; ".join(f"{listed(what)}: {CONFORMITY.get(word, readable(word))}" for word, what in by_word.items())


def answers(side: SideShown) -> dict[str, str]:
    """Return every answer about a side by what it is about; a record of earlier days knows fewer."""
    shown = side.conformity
    found = {"size": shown.size, "local size": _word(side, "local"), "envelope": shown.envelope, "form": shown.form,
             "taper": _word(side, "taper"), "coaxiality": _word(side, "coaxiality")}
    return {what: word for what, word in found.items() if word is not None}


def _word(side: SideShown, name: str) -> str | None:
    found = side.facts.get(f"conformity.{name}")
    return None if found is None else str(found.word or "not_proved")


def _probable(facts: Mapping[str, Found], what: str) -> str:
    """Return how probable it is that a side conforms in something, in brackets; nothing where that is not known."""
    found = facts.get(f"conformity.{PROBABLE.get(what, what)}_probability")
    if found is None or found.value is None:
        return ""
    share = found.value
    return f" ({100 * share:.0f} %)" if 0.01 <= share <= 0.99 else " (under 1 %)" if share < 0.01 else " (over 99 %)"


def _guard(advice: Advice) -> list[str]:
    """Return the decision rule and the guard band of each side, nothing where no limit is published."""
    found = [side.facts.get("conformity.guard_band") for side in advice.sides.values()
             if _probable(side.facts, "size")]
    bands = dict.fromkeys(show(each.value, "um") for each in found if each is not None and each.value is not None)
    return [f"{RULE}, guard band {listed(list(bands))}"] if bands else []
