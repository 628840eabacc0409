"""What is proved against the published standard: another question than whether a part fits."""

from recommender.account.lines import Line, wrapped
from recommender.account.words import CONFORMITY, SIDES, capital, listed, readable
from recommender.deciding.answer import Advice, ConformityShown


def conformity_lines(advice: Advice) -> list[Line]:
    """Return what is proved of each side, told once where both are alike, and where the limits come from."""
    told: dict[str, list[str]] = {}
    for name, side in advice.sides.items():
        told.setdefault(_proved(side.conformity), []).append(name)
    sources = dict.fromkeys(each.conformity.limit_source for each in advice.sides.values())
    limits = "; ".join(each for each in sources if each)
    return [
        *(line for text, names in told.items() for line in wrapped(f"{_where(names)}: {text}.", "  ")),
        *(wrapped(f"Limits at 20 degC: {limits}.", "  ") if limits else []),
    ]


def _where(names: list[str]) -> str:
    return capital(SIDES[names[0]]) if len(names) == 1 else "Both sides"


def _proved(shown: ConformityShown) -> str:
    parts = {"size": shown.size, "envelope": shown.envelope, "form": shown.form}
    by_word: dict[str, list[str]] = {}
    for what, word in parts.items():
        by_word.setdefault(word, []).append(what)
    return "; ".join(f"{listed(what)}: {CONFORMITY.get(word, readable(word))}" for word, what in by_word.items())
