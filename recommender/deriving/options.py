"""Every option of one side, in the order of remedies and parts, each with its facts."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, NamedTuple

import numpy as np

from recommender.bench.case import Case
from recommender.deriving.alignment import misalignment_fact
from recommender.deriving.bearing import FACTS as BEARING_FACTS
from recommender.deriving.bearing import bearing_facts
from recommender.deriving.bond import bond_facts
from recommender.deriving.candidate import Array, Candidate, Form, as_is, met_by
from recommender.deriving.collector import Collector
from recommender.deriving.compound import FACTS as COMPOUND_FACTS
from recommender.deriving.compound import compound_facts
from recommender.deriving.contact import FACTS as CONTACT_FACTS
from recommender.deriving.contact import contact_facts
from recommender.deriving.cut import cut_facts, reamed, sleeved, with_wall
from recommender.deriving.derived import Make, Only, OptionFacts, SideName
from recommender.deriving.draws_of import even
from recommender.deriving.edges import Edges, all_edges, class_limit, measured_error
from recommender.deriving.fit import INTERFERENCE, PRESSURES, interference_facts, pressure_facts
from recommender.deriving.frame import bore_material
from recommender.deriving.grip import FACTS as GRIP_FACTS
from recommender.deriving.grip import grip_facts, press_forces
from recommender.deriving.measured import MeasuredLog
from recommender.deriving.parts import SidePart, fit_class_of, generic_parts, ordinary_part, parts_in_hand
from recommender.deriving.pressed import UM, Pressed
from recommender.deriving.rating import rating_facts
from recommender.deriving.stack import Around, Stack, around, stack_of
from recommender.deriving.strain import FACTS as STRAIN_FACTS
from recommender.deriving.strain import strain_facts
from recommender.deriving.turned import make_facts, stepped_cup, turned_cups
from recommender.deriving.window import class_alone, od_window
from recommender.facts.value import FactValue
from recommender.mechanics.amount import middle
from recommender.mechanics.clearance import ClassLeft
from recommender.mechanics.openings import Factors
from recommender.metrology.draws import Draws
from recommender.rulebook.book import Part, Rulebook, Standard

NO_DIAMETER = "the diameter of the part is not known: measure it at three places with its bearing fitted"
STRESSED = (*PRESSURES, *STRAIN_FACTS, *GRIP_FACTS, *BEARING_FACTS, *CONTACT_FACTS)
AS_IT_IS = ("press_as_is", "press_with_compound")
TURNED = ("undersize_cup", "oversize_cup", "stepped_cup")


class Common(NamedTuple):
    """What options with the same part of the same diameters have in common."""

    ods: tuple[Array, ...] | None
    facts: Mapping[str, FactValue]
    pressed: Pressed | None = None
    classes: tuple[ClassLeft, ...] = ()


@dataclass(frozen=True, eq=False)
class SideWork:
    """What the options of one side are made from."""

    case: Case
    name: SideName
    book: Rulebook
    log: MeasuredLog
    standard: Standard
    draws: Draws
    openings: Factors
    angle: FactValue
    only: Only | None = None
    _shells: dict[str | None, Around] = field(default_factory=dict)
    _stacks: dict[tuple[Part, str], Stack] = field(default_factory=dict)
    _edges: dict[str, Edges] = field(default_factory=dict)
    _commons: dict[tuple[str, int], Common] = field(default_factory=dict)

    @cached_property
    def form(self) -> Form:
        """Return the bore as it is now."""
        return as_is(self.draws)

    def weighs(self, *remedies: str) -> bool:
        """Return whether one of these remedies is to be weighed."""
        return self.only is None or self.only.remedy in remedies

    def takes(self, part: str) -> bool:
        """Return whether the part with this label is to be weighed."""
        return self.only is None or self.only.part in (None, part)

    @property
    def bore_material(self) -> str | None:
        """Return what the bore is made of."""
        return bore_material(self.case)

    def contact_length(self, part: Part) -> float:
        """Return how much of a part sits in the bore, in mm: no more than the seat is deep, where that is known."""
        side = getattr(self.case.sides, self.name)
        return min(part.length, float(side.seat_depth.value)) if side.seat_depth else part.length

    def pressed(self, candidate: Candidate) -> Pressed:
        """Return a candidate with its rings and everything else its mechanics is worked out from."""
        length = self.contact_length(candidate.part)
        return Pressed(candidate, self.stack(candidate, length), self.book, self.openings, length, self.draws.by)

    def stack(self, candidate: Candidate, length: float) -> Stack:
        """Return the rings of a candidate: in the bore as it is they are those of its part, however it is held."""
        if candidate.forms[0].mean is not self.form.mean:
            return stack_of(candidate, around(candidate, self.case, self.name, self.book), self.book, length)
        bore, key = candidate.bore_material, (candidate.part, candidate.material)
        if bore not in self._shells:
            self._shells[bore] = around(candidate, self.case, self.name, self.book)
        if key not in self._stacks:
            self._stacks[key] = stack_of(candidate, self._shells[bore], self.book, length)
        return self._stacks[key]

    def edges(self, plain: Candidate) -> Edges:
        """Return where every limit stands, for a part measured as well as this one or as a made one would be."""
        if plain.label not in self._edges:
            measured = plain.ods if plain.measured else None
            error = measured[0] - middle(measured[0]) if measured else measured_error(self.book)
            self._edges[plain.label] = all_edges(self.pressed(plain), plain.forms[0], error)
        return self._edges[plain.label]

    def common(self, candidate: Candidate) -> Common:
        """Return what an option has in common with others of the same part and diameters, derived once for all."""
        key = (candidate.label, id(candidate.ods))
        if candidate.ods is None or key not in self._commons:
            self._commons[key] = _common(candidate, self)
        return self._commons[key]


def side_options(work: SideWork, made: Collector) -> tuple[OptionFacts, ...]:
    """Return every option of a side; `made` gains the facts about the ordinary part."""
    in_hand = parts_in_hand(work.case, work.name, work.standard, work.book, work.log)
    generic = generic_parts(work.standard, work.book)
    ordinary = ordinary_part(in_hand, generic)
    _ordinary_facts(work, ordinary, made)
    candidates = _candidates(work, in_hand, generic, ordinary)
    wanted = (each for each in candidates if work.weighs(each.remedy) and work.takes(each.label))
    return tuple(_facts(each, work, ordinary) for each in wanted)


def _candidates(
    work: SideWork, in_hand: list[SidePart], generic: list[SidePart], ordinary: SidePart | None
) -> Iterator[Candidate]:
    parts = [(part, _plain(part, work)) for part in (*in_hand, *generic) if work.takes(part.label)]
    for remedy in filter(work.weighs, AS_IT_IS):
        yield from (_pressed(plain._replace(remedy=remedy), part, work) for part, plain in parts)
    if work.standard.kind == "press_cup" and work.weighs(*TURNED):
        yield from _turned(work)
    if ordinary is not None and work.weighs("ream", "sleeve"):
        for cut in (reamed(ordinary, work.book, work.bore_material), sleeved(ordinary, work.book, work.draws)):
            yield with_wall(cut, work.case, work.name, work.book, work.log, work.draws)


def _turned(work: SideWork) -> Iterator[Candidate]:
    for each in work.standard.parts:
        part = work.book.parts[each]
        if not part.can_be_turned:
            continue
        yield from turned_cups(part, work.form, work.bore_material, work.book, work.pressed)
        stepped = stepped_cup(part, work.book, work.draws, work.bore_material, work.pressed)
        if stepped is not None:
            yield stepped


def _plain(part: SidePart, work: SideWork) -> Candidate:
    """Return a part as it is in the bore as it is."""
    return Candidate(
        AS_IT_IS[0],
        part.label,
        part.part,
        part.material,
        fit_class_of(part.part, part.material, work.bore_material, work.book),
        work.bore_material,
        (met_by(work.form, part.out_of_round),),
        None if part.od is None else (part.od,),
        part.inputs,
        part.measured,
        part.assumed,
        why_unknown=NO_DIAMETER,
        clearance_class=part.clearance_class,
    )


def _pressed(plain: Candidate, part: SidePart, work: SideWork) -> Candidate:
    if plain.fit_class is None or (part.od is None and part.part.od is None):
        return plain
    if part.measured:
        return _with_window(plain, work)
    return plain if part.part.od is None else _conditional(plain, part.part.od, work)


def _with_window(plain: Candidate, work: SideWork) -> Candidate:
    """Return a measured part with the diameters that would do for it as it is pressed dry."""
    if plain.remedy != "press_as_is":
        return plain
    return plain._replace(make=_window_of(plain, work.edges(plain), work))


def _conditional(plain: Candidate, band: tuple[float, float], work: SideWork) -> Candidate:
    """Return a generic part narrowed to the diameters that would do, where its band holds enough to choose from."""
    edges = work.edges(plain)
    if plain.remedy == "press_with_compound":
        widest = work.book.limits["compound.widest_gap"].value * UM
        edges = edges._replace(least={"compound.widest_gap": plain.forms[0].mean - widest})
    low, high = (np.full_like(work.draws.mean, end) for end in band)
    in_band = Edges({**edges.least, "part": low}, {**edges.greatest, "part": high}, edges.error)
    window = od_window(in_band, work.draws.by, work.book.limits["making.least_choice"].value * UM)
    if window.width < work.book.limits["making.least_band"].value * UM:
        return plain
    sizes = f"between {window.low:.3f} mm and {window.high:.3f} mm at 20 degC"
    condition = f"if it measures {sizes} with its bearing fitted"
    make = _window_of(plain, edges, work)
    return plain._replace(ods=(even("part_od", window.low, window.high),), condition=condition, make=make)


def _window_of(plain: Candidate, edges: Edges, work: SideWork) -> Make:
    window = od_window(edges, work.draws.by, work.book.limits["making.least_choice"].value * UM)
    limits = plain.fit_class.limits.values() if plain.fit_class else ()
    alone = class_alone(edges, limits, work.draws.by)
    ends = (window.low_bound_by, window.high_bound_by)
    return Make(window=(window.low, window.high), bound_by=ends, class_window=alone)


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
        "ordinary.over_window", over / UM, draws.by, ("bore.inscribed_diameter", *inputs)
    )
    made.drawn(
        "ordinary.under_window", under / UM, draws.by, ("bore.mean_diameter", *inputs)
    )


def _facts(candidate: Candidate, work: SideWork, ordinary: SidePart | None) -> OptionFacts:
    common = work.common(candidate)
    made, make = Collector(common.facts), candidate.make
    if common.pressed is not None:
        make = (make or Make())._replace(**_put_in(candidate.remedy, common.pressed, work, made))
    elif candidate.remedy == "press_with_compound":
        for fact in COMPOUND_FACTS:
            made.unknown(fact, candidate.why_unknown)
    misalignment_fact(work.angle, made)
    if candidate.remedy in TURNED:
        make_facts(candidate, ordinary, work.book, made)
    if candidate.remedy in ("ream", "sleeve"):
        cut_facts(candidate, work.case, work.name, work.book, work.log, work.draws, made)
    names = (candidate.remedy, candidate.label, candidate.part.id)
    return OptionFacts(*names, made.facts, make, candidate.condition, common.classes, candidate.part.bearing)


def _put_in(remedy: str, pressed: Pressed, work: SideWork, made: Collector) -> dict[str, Any]:
    """Return how the part goes in: the class of compound for its gap, else the force of the press."""
    if remedy != "press_with_compound":
        return {"press_force": press_forces(pressed)}
    coating = getattr(work.case.sides, work.name).bore_state.coating
    return {"compound": compound_facts(pressed, coating, made)}


def _common(candidate: Candidate, work: SideWork) -> Common:
    """Derive what holds of a part in a bore by whatever remedy it came there."""
    made = Collector()
    _part_facts(candidate, work, made)
    rating_facts(candidate.part, work.case, work.book, made)
    if candidate.ods is None:
        for fact in INTERFERENCE:
            made.unknown(fact, candidate.why_unknown, *candidate.od_inputs)
        for fact in STRESSED:
            made.unknown(fact, candidate.why_unknown)
        return Common(candidate.ods, made.facts)
    pressed = work.pressed(candidate)
    classes = _stressed_facts(pressed, work.case, made)
    return Common(candidate.ods, made.facts, pressed, classes)


def _part_facts(candidate: Candidate, work: SideWork, made: Collector) -> None:
    source = f"part:{candidate.part.id}"
    made.word("part.kind", candidate.part.kind, source)
    made.word("part.material", candidate.material, *candidate.od_inputs)
    made.word("part.suits_shell", candidate.part.id in work.standard.parts, source, "frame.standard")
    made.word("part.measured", candidate.measured, *candidate.od_inputs)
    in_hand = candidate.clearance_class or None
    made.word("part.clearance_class", in_hand, *candidate.od_inputs, why="no bearing of a stated class is in hand")
    _spindle_room(candidate, work, made)
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
            work.draws.by,
            candidate.od_inputs,
            candidate.assumed,
        )


def _spindle_room(candidate: Candidate, work: SideWork, made: Collector) -> None:
    spindle, source = work.case.frame.spindle, f"part:{candidate.part.id}"
    if spindle is None:
        made.unknown("part.spindle_room", "the spindle was not stated", source)
        return
    bearing = work.book.bearings[candidate.part.bearing]
    noted = work.log.keep(("frame", "spindle"), "spindle", f"{spindle.value:g} mm", "by its nominal size")
    made.exact("part.spindle_room", bearing.inner - float(spindle.value), source, noted)


def _stressed_facts(pressed: Pressed, case: Case, made: Collector) -> tuple[ClassLeft, ...]:
    """Derive what the part does to shell and bearing; return the clearance classes, the one to order first."""
    interference_facts(pressed, made)
    pressure_facts(pressed, made)
    strain_facts(pressed, made)
    contact_facts(pressed, made)
    grip_facts(pressed, case, made)
    bond_facts(pressed, made)
    return bearing_facts(pressed, made)
