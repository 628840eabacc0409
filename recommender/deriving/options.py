"""Every option of one side, in the order of remedies and parts, each with its facts."""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from recommender.bench.case import Case
from recommender.deriving.bearing import FACTS as BEARING_FACTS
from recommender.deriving.bearing import bearing_facts
from recommender.deriving.candidate import Candidate, as_is
from recommender.deriving.collector import Collector
from recommender.deriving.cut import cut_facts, reamed, sleeved, with_wall
from recommender.deriving.derived import Make, OptionFacts, SideName
from recommender.deriving.draws_of import even
from recommender.deriving.fit import UM, interference_facts, pressure_facts, strain_facts
from recommender.deriving.frame import bore_material
from recommender.deriving.grip import grip_facts, press_force
from recommender.deriving.measured import MeasuredLog
from recommender.deriving.parts import SidePart, fit_class_of, generic_parts, ordinary_part, parts_in_hand
from recommender.deriving.stack import stack_of
from recommender.deriving.turned import make_facts, stepped_cup, turned_cups
from recommender.deriving.window import class_limit, od_window
from recommender.metrology.draws import Draws
from recommender.rulebook.book import FitClass, Part, Rulebook, Standard

NO_DIAMETER = "the diameter of the part is not known: measure it at three places with its bearing fitted"
STRESSED = (
    "fit.pressure",
    "fit.cold_pressure",
    "fit.hot_pressure",
    "strain.tension",
    "strain.worst_tension",
    "grip.gaps_at",
    *BEARING_FACTS,
)
AS_IT_IS = ("press_as_is", "press_with_compound")


class SideWork(NamedTuple):
    """What the options of one side are made from."""

    case: Case
    name: SideName
    book: Rulebook
    log: MeasuredLog
    standard: Standard
    draws: Draws
    port_near: bool | None

    @property
    def bore_material(self) -> str | None:
        """Return what the bore is made of."""
        return bore_material(self.case)

    def contact_length(self, part: Part) -> float:
        """Return how much of a part sits in the bore, in mm: no more than the seat is deep, where that is known."""
        side = getattr(self.case.sides, self.name)
        return min(part.length, float(side.seat_depth.value)) if side.seat_depth else part.length


def side_options(work: SideWork, made: Collector) -> tuple[OptionFacts, ...]:
    """Return every option of a side; `made` gains the facts about the ordinary part."""
    in_hand = parts_in_hand(work.case, work.name, work.standard, work.book, work.log)
    generic = generic_parts(work.standard, work.book)
    ordinary = ordinary_part(in_hand, generic)
    _ordinary_facts(work, ordinary, made)
    return tuple(_facts(candidate, work, ordinary) for candidate in _candidates(work, in_hand, generic, ordinary))


def _candidates(
    work: SideWork, in_hand: list[SidePart], generic: list[SidePart], ordinary: SidePart | None
) -> Iterator[Candidate]:
    for remedy in AS_IT_IS:
        for part in (*in_hand, *generic):
            yield _pressed(remedy, part, work)
    if work.standard.kind == "press_cup":
        yield from _turned(work)
    if ordinary is not None:
        for cut in (reamed(ordinary, work.book, work.bore_material), sleeved(ordinary, work.book, work.draws)):
            yield with_wall(cut, work.case, work.name, work.book, work.log, work.draws)


def _turned(work: SideWork) -> Iterator[Candidate]:
    for each in work.standard.parts:
        part = work.book.parts[each]
        if not part.can_be_turned:
            continue
        length = work.contact_length(part)
        yield from turned_cups(
            part,
            work.case,
            work.name,
            work.book,
            as_is(work.draws),
            work.draws,
            work.bore_material,
            work.port_near,
            length,
        )
        stepped = stepped_cup(part, work.book, work.draws, work.bore_material)
        if stepped is not None:
            yield stepped


def _pressed(remedy: str, part: SidePart, work: SideWork) -> Candidate:
    fit_class = fit_class_of(part.part, part.material, work.bore_material, work.book)
    form = as_is(work.draws)
    plain = Candidate(
        remedy,
        part.label,
        part.part,
        part.material,
        fit_class,
        work.bore_material,
        (form,),
        None if part.od is None else (part.od,),
        part.inputs,
        part.measured,
        part.assumed,
        why_unknown=NO_DIAMETER,
    )
    if part.measured or part.part.od is None or fit_class is None:
        return plain
    return _conditional(plain, part.part.od, fit_class, work)


def _conditional(plain: Candidate, band: tuple[float, float], fit_class: FitClass, work: SideWork) -> Candidate:
    """Return a generic part narrowed to the diameters that would do here, where its band holds any."""
    if plain.remedy == "press_as_is":
        window = od_window(plain.forms[0], fit_class, work.book, work.draws.weights, work.draws.effective_count)
        low, high = window.low, window.high
    else:
        high = float(np.median(work.draws.inscribed)) + class_limit(work.book, fit_class, "bar_high")
        low = float(np.median(work.draws.mean)) - work.book.limits["compound.widest_gap"].value * UM
    low, high = np.ceil(max(low, band[0]) * 1000) / 1000, np.floor(min(high, band[1]) * 1000) / 1000
    if low >= high:
        return plain
    condition = f"if it measures between {low:.3f} mm and {high:.3f} mm with its bearing fitted"
    return plain._replace(ods=(even("part_od", float(low), float(high)),), condition=condition)


def _ordinary_facts(work: SideWork, ordinary: SidePart | None, made: Collector) -> None:
    fit_class = (
        None if ordinary is None else fit_class_of(ordinary.part, ordinary.material, work.bore_material, work.book)
    )
    if ordinary is None or ordinary.od is None or fit_class is None:
        for fact in ("ordinary.over_window", "ordinary.under_window"):
            made.unknown(fact, "no part with a known diameter and fit class belongs to this shell")
        return
    draws, book = work.draws, work.book
    over = ordinary.od - draws.inscribed - class_limit(book, fit_class, "bar_high")
    under = class_limit(book, fit_class, "bar_low") - (ordinary.od - draws.mean)
    inputs = (*ordinary.inputs, f"limit:{fit_class.limits['bar_high']}", f"limit:{fit_class.limits['bar_low']}")
    made.drawn(
        "ordinary.over_window", over / UM, draws.weights, draws.effective_count, ("bore.inscribed_diameter", *inputs)
    )
    made.drawn(
        "ordinary.under_window", under / UM, draws.weights, draws.effective_count, ("bore.mean_diameter", *inputs)
    )


def _facts(candidate: Candidate, work: SideWork, ordinary: SidePart | None) -> OptionFacts:
    made = Collector()
    draws = work.draws
    _part_facts(candidate, work, made)
    interference_facts(candidate, draws.weights, draws.effective_count, made)
    make = candidate.make
    if candidate.ods is None:
        for fact in STRESSED:
            made.unknown(fact, candidate.why_unknown)
    else:
        force = _stressed_facts(candidate, work, made)
        make = (make or Make())._replace(press_force=None if candidate.remedy == "press_with_compound" else force)
    if candidate.remedy in ("undersize_cup", "oversize_cup", "stepped_cup"):
        make_facts(candidate, ordinary, work.book, made)
    if candidate.remedy in ("ream", "sleeve"):
        cut_facts(candidate, work.case, work.name, work.book, work.log, draws, made)
    return OptionFacts(candidate.remedy, candidate.label, candidate.part.id, made.facts, make, candidate.condition)


def _part_facts(candidate: Candidate, work: SideWork, made: Collector) -> None:
    source = f"part:{candidate.part.id}"
    made.word("part.kind", candidate.part.kind, source)
    made.word("part.material", candidate.material, *candidate.od_inputs)
    made.word("part.suits_shell", candidate.part.id in work.standard.parts, source, "frame.standard")
    made.word("part.measured", candidate.measured, *candidate.od_inputs)
    made.word(
        "fit.class",
        candidate.fit_class.id if candidate.fit_class else None,
        "frame.bore_material",
        "part.material",
        why="no fit class is known for this pair of materials",
    )
    if candidate.ods is None:
        made.unknown("part.od", candidate.why_unknown, *candidate.od_inputs)
    else:
        made.drawn(
            "part.od",
            candidate.ods[0],
            work.draws.weights,
            work.draws.effective_count,
            candidate.od_inputs,
            candidate.assumed,
        )


def _stressed_facts(candidate: Candidate, work: SideWork, made: Collector) -> tuple[float, float] | None:
    """Derive what the part does to shell and bearing; return the force the press is forecast to need (N)."""
    draws, length = work.draws, work.contact_length(candidate.part)
    stack = stack_of(candidate, work.case, work.name, work.book, length)
    weights, effective = draws.weights, draws.effective_count
    pressure_facts(candidate, stack, work.book, weights, effective, made)
    strain_facts(candidate, stack, work.book, weights, effective, made, work.port_near)
    bearing_facts(candidate, stack, work.book, weights, effective, made)
    grip_facts(candidate, stack, work.case, work.book, length, weights, effective, made)
    return press_force(candidate, stack, work.book, length)
