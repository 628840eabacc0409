"""The value of a fact: a number with its spread, a word, a flag, or unknown with the reason."""

from typing import NamedTuple

Word = str | bool


class FactValue(NamedTuple):
    """What is known of one fact.

    Numbers carry `value` (median) with `low` and `high` (95 % interval) in the unit of the catalogue, and
    `sampling` (standard error of the interval's ends from the finite draws); `beyond` is how far the
    interval by which a bar has to be kept reaches past them. Words and flags carry `word`.
    Unknown has neither and says why; a word that is not known may be one of `could_be` only, where that is not empty.
    A fact that does not apply is one the frame cannot have at all, such as the fit in a threaded shell: no comparison
    of it holds. `note` says in words what a bare number leaves out. `inputs` name what it was made from: fact ids, or
    places in the case.
    """

    fact: str
    value: float | None = None
    low: float | None = None
    high: float | None = None
    word: Word | None = None
    why_unknown: str = ""
    sampling: float = 0.0
    assumed: bool = False
    inputs: tuple[str, ...] = ()
    note: str = ""
    could_be: tuple[Word, ...] = ()
    applies: bool = True
    beyond: float = 0.0

    @property
    def known(self) -> bool:
        """Return whether the fact has a value at all."""
        return self.value is not None or self.word is not None


def number(
    fact: str, value: float, low: float | None = None, high: float | None = None, *, decimals: int = 5, **more: object
) -> FactValue:
    """Return a number with its interval, rounded so that the last bits never decide (5 decimals of a mm: 0.01 um)."""
    middle = round(value, decimals) + 0.0
    least = middle if low is None else round(low, decimals) + 0.0
    most = middle if high is None else round(high, decimals) + 0.0
    return FactValue(fact, middle, least, most, **more)  # type: ignore[arg-type]


def word(fact: str, value: Word, inputs: tuple[str, ...] = ()) -> FactValue:
    """Return a fact whose value is a word or a flag."""
    return FactValue(fact, word=value, inputs=inputs)


def unknown(fact: str, why: str, inputs: tuple[str, ...] = ()) -> FactValue:
    """Return a fact of which nothing is known, with the reason in words."""
    return FactValue(fact, why_unknown=why, inputs=inputs)


def not_applicable(fact: str, why: str, inputs: tuple[str, ...] = ()) -> FactValue:
    """Return a fact that this frame cannot have, with the reason in words."""
    return FactValue(fact, why_unknown=why, inputs=inputs, applies=False)
