"""What a plan of readings has to answer: the limits a bore is held against, and what has to be seen at all."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from recommender.asking.fields import Field
from recommender.logic.conditions import leaves_of
from recommender.metrology.agreement import agreement
from recommender.metrology.identify import seen
from recommender.metrology.sheet import Sheet
from recommender.rulebook.book import Rulebook, Standard

FORM_FACTS: Mapping[str, Field] = {"bore.ovality": "ovality", "bore.lobing": "lobing", "bore.taper": "taper"}
FEWEST: Mapping[str, str] = {
    "evidence.fewest_readings": "readings", "evidence.plan_readings": "readings",
    "evidence.fewest_depths": "depths", "evidence.plan_depths": "depths",
}
UM = 1e-3


class Demand(NamedTuple):
    """A size or form to be found inside a band (mm; None: no end) by the whole interval that decides.

    `limits` names the limits, or the standard.
    """

    field: Field
    low: float | None
    high: float | None
    limits: str


def demands(standard: Standard, book: Rulebook) -> tuple[Demand, ...]:
    """Return what a bore is held against: every limit of form a rule uses, the published limits of the standard."""
    found = {_form_demand(fact, limit, value) for fact, limit, value in _form_limits(book)}
    lower, upper = standard.bore.lower, standard.bore.upper
    if lower is not None or upper is not None:
        text = f"bore limits of {standard.id}"
        found |= {Demand("mean", lower, upper, text), Demand("inscribed", lower, None, text),
                  Demand("widest", None, upper, text)}
    return tuple(sorted((each for each in found if (each.low, each.high) != (None, None)), key=repr))


def mid_band(standard: Standard) -> float:
    """Return the middle of the published limits (mm), else the nominal size."""
    bore = standard.bore
    return bore.nominal if bore.lower is None or bore.upper is None else (bore.lower + bore.upper) / 2


def unseen(sheet: Sheet, book: Rulebook) -> frozenset[str]:
    """Return what a set of readings leaves open whatever it shows: form that is not seen, too few, none to spare."""
    sees = seen(sheet)
    open_ = {name for name in ("size", "taper", "ovality", "lobing") if not getattr(sees, name)}
    counts = {"readings": sees.count, "depths": sees.depths}
    open_ |= {limit for limit, name in FEWEST.items()
              if limit in book.limits and counts[name] < book.limits[limit].value}
    if not sheet.readings or agreement(sheet).degrees < 1:
        open_.add("no reading to spare")
    return frozenset(open_)


def _form_limits(book: Rulebook) -> Iterator[tuple[str, str, float]]:
    """Yield fact, limit and value (um) of every limit of form that bears on a side or a remedy."""
    for rule in book.rules:
        for leaf in leaves_of(rule.condition) if rule.about.kind in ("side", "remedies") else ():
            for operand in leaf.wanted:
                if leaf.fact.id in FORM_FACTS and operand.limit and isinstance(operand.value, float | int):
                    yield leaf.fact.id, operand.limit, float(operand.value)


def _form_demand(fact: str, limit: str, value: float) -> Demand:
    return Demand(FORM_FACTS[fact], None, value * UM, limit)
