"""The three outcomes and how groups combine them (strong three-valued logic, no early exit)."""

from collections.abc import Iterable
from typing import Literal

Outcome = Literal["holds", "fails", "undecided"]


def every(outcomes: Iterable[Outcome]) -> Outcome:
    """Return `fails` if one fails, else `undecided` if one is undecided, else `holds`."""
    seen = set(outcomes)
    if "fails" in seen:
        return "fails"
    return "undecided" if "undecided" in seen else "holds"


def some(outcomes: Iterable[Outcome]) -> Outcome:
    """Return `holds` if one holds, else `undecided` if one is undecided, else `fails`."""
    seen = set(outcomes)
    if "holds" in seen:
        return "holds"
    return "undecided" if "undecided" in seen else "fails"


def none_of(outcomes: Iterable[Outcome]) -> Outcome:
    """Return `fails` if one holds, else `undecided` if one is undecided, else `holds`."""
    return opposite(some(outcomes))


def opposite(outcome: Outcome) -> Outcome:
    """Return `fails` for `holds` and the other way round; `undecided` stays."""
    turned: dict[Outcome, Outcome] = {"holds": "fails", "fails": "holds", "undecided": "undecided"}
    return turned[outcome]
