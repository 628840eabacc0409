"""Which parts can be options on a side: parts in hand, generic parts, and cups that can be turned."""

from typing import NamedTuple

from recommender.bench.case import Case
from recommender.bench.parts import Part as PartInHand
from recommender.deriving.as_measured import as_measured, measured_beside
from recommender.deriving.derived import SideName
from recommender.deriving.draws_of import Array, even
from recommender.deriving.measured import MeasuredLog
from recommender.deriving.part_in_hand import diameter_at_20
from recommender.deriving.spreads import scalar_spread
from recommender.rulebook.book import Bearing, FitClass, Part, Rulebook, Standard


class SidePart(NamedTuple):
    """A part that may go into a side, with its material and the draws of its diameter where one is known.

    `clearance_class` is the class stated for the bearing in hand, empty where none is; `out_of_round` the largest minus
    the smallest outside diameter measured on it (mm).
    """

    label: str
    part: Part
    material: str
    od: Array | None
    inputs: tuple[str, ...]
    measured: bool
    assumed: bool
    suits: bool
    clearance_class: str = ""
    out_of_round: float = 0.0


def parts_in_hand(case: Case, name: SideName, standard: Standard, book: Rulebook, log: MeasuredLog) -> list[SidePart]:
    """Return the parts in hand meant for this side or for either."""
    mine = [(index, part) for index, part in enumerate(case.parts) if part.side in (name, None)]
    return [_in_hand(case, index, part, standard, book, log) for index, part in mine]


def generic_parts(standard: Standard, book: Rulebook) -> list[SidePart]:
    """Return the generic parts of a standard, each with its band of diameters as spread where one is known."""
    return [_generic(book.parts[each]) for each in standard.parts]


def ordinary_part(in_hand: list[SidePart], generic: list[SidePart]) -> SidePart | None:
    """Return the part one would fit without second thoughts: in hand and measured, else the first with a band."""
    known = [part for part in (*in_hand, *generic) if part.od is not None and part.suits]
    return known[0] if known else None


def fit_class_of(part: Part, material: str, bore_material: str | None, book: Rulebook) -> FitClass | None:
    """Return the fit class of a pair, None where the book has none or the bore's material is not known."""
    if bore_material is None:
        return None
    return next(
        (
            each
            for each in book.fit_classes.values()
            if part.kind in each.part_kinds and material in each.part_materials and bore_material in each.bore_materials
        ),
        None,
    )


def _in_hand(
    case: Case, index: int, given: PartInHand, standard: Standard, book: Rulebook, log: MeasuredLog
) -> SidePart:
    listed = book.parts[given.part]
    part = as_measured(listed, given, case, book)
    label = part.id + (f" ({given.id})" if given.id else f" (in hand, no. {index + 1})")
    material = given.material or part.material
    suits = part.id in standard.parts
    bare = part.kind == "cup" and given.bearing_fitted == "not_fitted"
    clearance = _class_in_hand(given, book.bearings[part.bearing])
    if given.od is None or bare:
        how = "measured without its bearing, which will widen it" if bare else "not measured"
        noted = log.keep(("parts", index), "part in hand", f"{part.title}, {how}")
        return SidePart(label, part, material, None, (noted,), False, False, suits, clearance)
    spread = scalar_spread(given.od, "part_od", case, book)
    noted = log.scalar(("parts", index, "od"), f"outside diameter of {label}", given.od, "mm", spread)
    others = measured_beside(("parts", index), given, case, book, log)
    od = diameter_at_20(given.od, given, part, material, case, book)
    round_to = 0.0 if given.od_spread is None else float(given.od_spread.value)
    return SidePart(label, part, material, od, (noted, *others), True, spread.assumed, suits, clearance, round_to)


def _class_in_hand(given: PartInHand, bearing: Bearing) -> str:
    """Return the class stated for a bearing, or for the one fitted in a cup; two that differ say nothing."""
    fitted = "unknown" if given.bearing is None else given.bearing.clearance_class
    stated = {each for each in (given.clearance_class, fitted) if each != "unknown"}
    named = stated.pop() if len(stated) == 1 else ""
    return named if named in bearing.clearance else ""


def _generic(part: Part) -> SidePart:
    od = None if part.od is None else even("part_od", *part.od)
    return SidePart(
        f"{part.id} (to be chosen)", part, part.material, od, (f"part:{part.id}",), False, od is not None, True
    )
