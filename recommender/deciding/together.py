"""Whether the parts chosen for the two sides belong together, and the choice that makes them do so."""

from collections.abc import Mapping
from dataclasses import replace
from itertools import product

from recommender.deciding.options import OptionResult
from recommender.deciding.sides import SideDecision
from recommender.deriving.derived import SideName
from recommender.rulebook.book import Part, Rulebook

IN_HAND = "case:parts."


def pair_parts(
    sides: Mapping[SideName, SideDecision], book: Rulebook
) -> tuple[dict[SideName, SideDecision], str]:
    """Return the sides with options chosen so that their parts belong together, and what to choose when none do.

    The remedies stay; among their cleared options the first pair that belongs together is taken.
    """
    drive, other = sides["drive"], sides["non_drive"]
    if drive.chosen is None or other.chosen is None:
        return dict(sides), ""
    for one, two in product(_choices(drive), _choices(other)):
        if not apart(one, two, book):
            return {"drive": drive._replace(chosen=one), "non_drive": other._replace(chosen=two)}, ""
    return dict(sides), apart(drive.chosen, other.chosen, book)


def apart(one: OptionResult, two: OptionResult, book: Rulebook) -> str:
    """Return why two parts do not belong together and what to choose, empty when they do."""
    if _in_hand(one) & _in_hand(two):
        return f"One part cannot go into both sides: measure a second {one.option.part_id}."
    if one.option.part_id == two.option.part_id and one.option.bearing == two.option.bearing:
        return ""
    parts = book.parts.get(one.option.part_id), book.parts.get(two.option.part_id)
    if parts[0] is None or parts[1] is None:
        return "A part chosen is not in the parts list: choose parts that are, with the same bearing on both sides."
    return _differ(_fitted(parts[0], one), _fitted(parts[1], two), book)


def _fitted(part: Part, result: OptionResult) -> Part:
    """Return a part with the bearing that is fitted in it, which may differ from that of the parts list."""
    return replace(part, bearing=result.option.bearing or part.bearing)


def _differ(one: Part, two: Part, book: Rulebook) -> str:
    if one.kind != two.kind:
        return f"{one.title} and {two.title} do not belong together: choose the same kind of part for both sides."
    bores = _inner(one, book), _inner(two, book)
    if bores[0] is None or bores[0] != bores[1]:
        return f"{one.title} and {two.title} take different spindles: choose parts whose bearings have the same bore."
    return ""


def _inner(part: Part, book: Rulebook) -> float | None:
    bearing = book.bearings.get(part.bearing)
    return None if bearing is None else bearing.inner


def _choices(side: SideDecision) -> tuple[OptionResult, ...]:
    return next(each.cleared for each in side.remedies if each.remedy.id == side.verdict)


def _in_hand(result: OptionResult) -> set[str]:
    """Return the names of the measured parts in hand an option uses, `case:parts.0` for the first."""
    od = result.option.facts.get("part.od")
    return {".".join(each.split(".")[:2]) for each in (od.inputs if od else ()) if each.startswith(IN_HAND)}
