"""Cutting the shell: reaming for the ordinary part, and a bonded sleeve that then takes it."""

import numpy as np

from recommender.bench.case import Case
from recommender.deriving.bore import cutting_wall
from recommender.deriving.candidate import Candidate, cut_round
from recommender.deriving.collector import Collector
from recommender.deriving.derived import Make, SideName
from recommender.deriving.draws_of import even, normal
from recommender.deriving.edges import class_limit
from recommender.deriving.measured import MeasuredLog
from recommender.deriving.parts import SidePart, fit_class_of
from recommender.deriving.pressed import UM
from recommender.mechanics.amount import middle
from recommender.mechanics.cutting import clean_up, sleeve, wall_left
from recommender.metrology.draws import Draws
from recommender.rulebook.book import FitClass, Rulebook

SLEEVE_MATERIAL = "aluminium"
FACTS = ("cut.bore", "cut.clean_up", "cut.wall_left")


def reamed(part: SidePart, book: Rulebook, bore_material: str | None) -> Candidate:
    """Return the option of reaming the bore for a part."""
    fit_class = fit_class_of(part.part, part.material, bore_material, book)
    if fit_class is None or part.od is None:
        return _open("ream", part, fit_class, bore_material)
    band = _band(_target_bore(part, fit_class, book), book.limits["ream.tolerance"].value * UM)
    return _cut("ream", part, fit_class, bore_material, band, Make(bore=band))


def sleeved(part: SidePart, book: Rulebook, draws: Draws) -> Candidate:
    """Return the option of a bonded sleeve: reamed to clean up, sleeve bored so that the part fits it."""
    fit_class = fit_class_of(part.part, part.material, SLEEVE_MATERIAL, book)
    if fit_class is None or part.od is None:
        return _open("sleeve", part, fit_class, SLEEVE_MATERIAL)
    tolerance = book.limits["sleeve.tolerance"].value * UM
    inside = _target_bore(part, fit_class, book)
    widest = draws.by.summary(draws.widest).most
    reamer = book.limits["ream.tolerance"].value * UM
    made = sleeve(
        inside, book.limits["sleeve.wall_made"].value, book.limits["sleeve.bond_line_aim"].value, widest + reamer
    )
    outside, bore = round(float(made.outside), 3), round(float(made.ream_to), 3)
    sizes = {
        "od_mm": _band(outside, tolerance),
        "id_mm": _band(inside, tolerance),
        "wall_mm": _band((outside - inside) / 2, 0.0),
        "bond_line_mm": _band((bore - outside) / 2, 0.0),
    }
    return _cut(
        "sleeve", part, fit_class, SLEEVE_MATERIAL, sizes["id_mm"], Make(bore=_band(bore, reamer), sleeve=sizes)
    )


def with_wall(
    candidate: Candidate, case: Case, name: SideName, book: Rulebook, log: MeasuredLog, draws: Draws
) -> Candidate:
    """Return the candidate with the wall that is left after cutting, where the wall is known."""
    wall = cutting_wall(case, name, book, log)
    if wall is None or candidate.make is None or candidate.make.bore is None:
        return candidate
    left = float(wall_left(wall.value, middle(draws.mean), sum(candidate.make.bore) / 2))
    return candidate._replace(make=candidate.make._replace(wall_left=round(left, 3)))


def cut_facts(
    candidate: Candidate, case: Case, name: SideName, book: Rulebook, log: MeasuredLog, draws: Draws, made: Collector
) -> None:
    """Derive bore after cutting, whether it cleans up, the wall left, and the sleeve's wall and bond line."""
    if candidate.make is None or candidate.make.bore is None:
        for fact in (*FACTS, "sleeve.wall", "sleeve.bond_line"):
            made.unknown(fact, candidate.why_unknown)
        return
    low, high = candidate.make.bore
    made.between("cut.bore", (low + high) / 2, low, high, "part.od", "limit:ream.tolerance")
    made.drawn(
        "cut.clean_up",
        np.asarray(clean_up(low, draws.widest)) / UM,
        draws.by,
        ("cut.bore", "bore.widest_diameter"),
    )
    wall = cutting_wall(case, name, book, log)
    if wall is None:
        made.unknown("cut.wall_left", "the wall was not measured")
    else:
        left = wall_left(normal("wall", wall.value, wall.spread.u), draws.mean, high)
        made.drawn(
            "cut.wall_left",
            np.asarray(left),
            draws.by,
            ("seat.wall", "bore.mean_diameter", "cut.bore"),
            wall.spread.assumed,
        )
    if candidate.make.sleeve is not None:
        made.exact("sleeve.wall", candidate.make.sleeve["wall_mm"][0], "cut.bore", "limit:sleeve.wall_made")
        made.exact("sleeve.bond_line", candidate.make.sleeve["bond_line_mm"][0], "limit:sleeve.bond_line_aim")


def _target_bore(part: SidePart, fit_class: FitClass, book: Rulebook) -> float:
    assert part.od is not None
    aim = (class_limit(book, fit_class, "aim_low") + class_limit(book, fit_class, "aim_high")) / 2
    return round(middle(part.od) - aim, 3)


def _cut(
    remedy: str, part: SidePart, fit_class: FitClass, material: str | None, bore: tuple[float, float], make: Make
) -> Candidate:
    assert part.od is not None
    form = cut_round(*bore, even("seat_fit", 0.0, 1.0))
    return Candidate(
        remedy,
        part.label,
        part.part,
        part.material,
        fit_class,
        material,
        (form,),
        (part.od,),
        part.inputs,
        part.measured,
        part.assumed,
        make=make,
        clearance_class=part.clearance_class,
    )


def _open(remedy: str, part: SidePart, fit_class: FitClass | None, material: str | None) -> Candidate:
    return Candidate(
        remedy,
        part.label,
        part.part,
        part.material,
        fit_class,
        material,
        (),
        None,
        part.inputs,
        part.measured,
        why_unknown="the diameter of the part that would go in is not known",
        clearance_class=part.clearance_class,
    )


def _band(middle: float, half: float) -> tuple[float, float]:
    return (round(middle - half, 4), round(middle + half, 4))
