"""The shop's sheet: what to fit and to make on each side, and whether it is released."""

from collections.abc import Iterator
from typing import NamedTuple

from recommender.account.answer_side import (
    barred_in_hand,
    bearing_text,
    beside_text,
    compound_text,
    kept_text,
    lead_in_text,
    no_room,
    press_text,
    seat_text,
    stopped,
    window_text,
)
from recommender.account.numbers import size, turned
from recommender.account.page_matter import Matter, Row, option_of, row, rows, side_title
from recommender.account.page_told import Told, fact
from recommender.account.rating_text import rating_text
from recommender.account.words import capital, readable, side_verdict, stop
from recommender.deciding.answer import Found, LandShown, MakeShown, SideShown
from recommender.deciding.trace import Trace

SLEEVE = {"od_mm": "outside", "id_mm": "inside", "wall_mm": "wall", "bond_line_mm": "bond line"}
FIT = {
    "part.od": "Outside of the part at 20 degC",
    "fit.mean_interference": "Interference, mean",
    "fit.tightest_interference": "Interference, tightest",
    "grip.gaps_at": "Pedal force at which the seat starts to gap",
    "grip.axial": "Friction alone holds along the axis",
    "grip.torque": "Friction alone holds against turning",
}


class Sheet(NamedTuple):
    """One side of the shop's sheet; `state` is `released`, `not_released`, `held` or `nothing`."""

    title: str
    verdict: str
    state: str
    remedy: str
    rows: list[Row]
    before: list[Told]
    todo: list[Told]
    cautioned: bool


def sheets(matter: Matter) -> list[Sheet]:
    """Return the shop's sheet of each side."""
    return [_sheet(matter, name, side) for name, side, _ in matter.sides()]


def _sheet(matter: Matter, name: str, side: SideShown) -> Sheet:
    trace = matter.advice.trace
    made = _rows(side, side.make, trace) if side.make is not None else _no_room(side, trace)
    before = side.make.before_work if side.make is not None else ()
    told = [Told(stop(capital(readable(each))), side.node) for each in before]
    verdict = capital(side_verdict(matter.advice, name))
    todo, cautioned = _todo(matter, name, side), _cautioned(side)
    return Sheet(side_title(name), verdict, _state(side), side.remedy or "", made, told, todo, cautioned)


def _state(side: SideShown) -> str:
    if side.make is None:
        return "nothing"
    if side.verdict == "held":
        return "held"
    return "released" if side.make.released else "not_released"


def _no_room(side: SideShown, trace: Trace) -> list[Row]:
    return rows([row("No diameter", *(Told(capital(text), node) for text, node in no_room(side, trace).items()))])


def _rows(side: SideShown, make: MakeShown, trace: Trace) -> list[Row]:
    at = f" at {make.valid_at}" if make.valid_at else ""
    told = [
        row("Part", Told(readable(make.part), side.node)),
        row("Only", Told(make.condition, side.node) if make.condition else None),
        *(row("Not", Told(readable(each.part), each.node), Told(*stopped(each))) for each in barred_in_hand(side)),
        row("Bearing", *_texts(side, bearing_text(side.bearing), kept_text(side.bearing))),
        row("Rating, for information", *_texts(side, rating_text(side.bearing))),
        row("Compound", *_texts(side, compound_text(make))),
        row("Turn outside to", *_outside(side, make, at)),
        row("All limits", *_texts(side, window_text(make, trace)), *_beside(side)),
        row("Lead-in", *_texts(side, lead_in_text(make))),
        row("Seat of the bearing", *_texts(side, seat_text(make))),
        row("Ream bore to", Told(f"{turned(make.bore_mm)}{at}", side.node) if make.bore_mm else None),
        row("Sleeve", *_texts(side, *(f"{SLEEVE.get(key, key)} {turned(of)}{at}" for key, of in make.sleeve.items()))),
        row("Wall left", Told(f"{make.wall_left:.2f} mm", side.node) if make.wall_left is not None else None),
        *_facts(side),
        row("Press force", Told(press_text(make), side.node) if make.press_force else None),
    ]
    return rows(told)


def _outside(side: SideShown, make: MakeShown, at: str) -> Iterator[Told]:
    if len(make.lands) > 1:
        yield from (Told(f"{_land(each)}{at}", side.node) for each in make.lands)
    elif make.od_mm:
        grade = f" ({make.grade})" if make.grade else ""
        yield Told(f"{turned(make.od_mm)}{grade}{at}", side.node)


def _land(land: LandShown) -> str:
    return f"{size(land.start_mm)} to {size(land.end_mm)} mm from the face: {turned(land.od_mm)}"


def _texts(side: SideShown, *texts: str) -> list[Told]:
    return [Told(each, side.node) for each in texts if each]


def _beside(side: SideShown) -> list[Told]:
    option, text = option_of(side), beside_text(side)
    return [Told(text, f"{option.node.removeprefix('contest/')}/part.od")] if option is not None and text else []


def _todo(matter: Matter, name: str, side: SideShown) -> list[Told]:
    """Return what has to be done first on a side of which nothing is decided yet, each thing once."""
    if side.verdict != "measure_again":
        return []
    asked = dict.fromkeys(each.do for each in matter.advice.questions if each.side in (None, name))
    return [Told(stop(capital(each)), f"words:questions/{each}") for each in asked]


def _cautioned(side: SideShown) -> bool:
    option = option_of(side)
    return option is not None and option.outcome == "cleared_with_cautions"


def _facts(side: SideShown) -> list[Row]:
    option = option_of(side)
    if option is None:
        return []
    where = option.node.removeprefix("contest/")
    return [
        row(Told(name, f"fact:{key}"), _known(option.facts.get(key), f"{where}/{key}")) for key, name in FIT.items()
    ]


def _known(found: Found | None, where: str) -> Told | None:
    return None if found is None or found.unknown is not None else fact(found, where)
