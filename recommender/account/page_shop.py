"""The shop's sheet: what to fit and to make on each side, and whether it is released."""

from collections.abc import Iterator
from typing import NamedTuple

from recommender.account.answer_side import bearing_text, press_text
from recommender.account.numbers import between, size, turned
from recommender.account.page_matter import Matter, Row, option_of, row, rows, side_title
from recommender.account.page_told import Told, fact
from recommender.account.words import capital, readable, side_verdict, stop
from recommender.deciding.answer import Found, LandShown, MakeShown, SideShown

SLEEVE = {"od_mm": "outside", "id_mm": "inside", "wall_mm": "wall", "bond_line_mm": "bond line"}
FIT = {
    "part.od": "Outside of the part",
    "fit.mean_interference": "Interference, mean",
    "fit.tightest_interference": "Interference, tightest",
}


class Sheet(NamedTuple):
    """One side of the shop's sheet; `state` is `released`, `not_released`, `held` or `nothing`."""

    title: str
    verdict: str
    state: str
    remedy: str
    rows: list[Row]
    before: list[Told]


def sheets(matter: Matter) -> list[Sheet]:
    """Return the shop's sheet of each side."""
    return [_sheet(matter, name, side) for name, side, _ in matter.sides()]


def _sheet(matter: Matter, name: str, side: SideShown) -> Sheet:
    made = _rows(side, side.make) if side.make is not None else []
    before = side.make.before_work if side.make is not None else ()
    told = [Told(stop(capital(readable(each))), side.node) for each in before]
    verdict = capital(side_verdict(matter.advice, name))
    return Sheet(side_title(name), verdict, _state(side), side.remedy or "", made, told)


def _state(side: SideShown) -> str:
    if side.make is None:
        return "nothing"
    if side.verdict == "held":
        return "held"
    return "released" if side.make.released else "not_released"


def _rows(side: SideShown, make: MakeShown) -> list[Row]:
    at = f" at {make.valid_at}" if make.valid_at else ""
    told = [
        row("Part", Told(readable(make.part), side.node)),
        row("Only", Told(make.condition, side.node) if make.condition else None),
        row("Bearing", Told(bearing_text(side.bearing), side.node) if side.bearing else None),
        row("Turn outside to", *_outside(side, make, at)),
        row("Limits leave", *_window(side, make)),
        row("Ream bore to", Told(f"{turned(make.bore_mm)}{at}", side.node) if make.bore_mm else None),
        row("Sleeve", *(Told(f"{SLEEVE.get(key, key)} {turned(of)}", side.node) for key, of in make.sleeve.items())),
        row("Wall left", Told(f"{make.wall_left:.2f} mm", side.node) if make.wall_left is not None else None),
        *_facts(side),
        row("Press force", Told(press_text(make), side.node) if make.press_force else None),
    ]
    return rows(told)


def _outside(side: SideShown, make: MakeShown, at: str) -> Iterator[Told]:
    if len(make.lands) > 1:
        yield from (Told(f"{_land(each)}{at}", side.node) for each in make.lands)
    elif make.od_mm:
        yield Told(f"{turned(make.od_mm)}{at}", side.node)


def _land(land: LandShown) -> str:
    return f"{size(land.start_mm)} to {size(land.end_mm)} mm from the face: {turned(land.od_mm)}"


def _window(side: SideShown, make: MakeShown) -> list[Told]:
    if make.window_mm is None:
        return []
    bound = f", bound by {make.bound_by[0]} and {make.bound_by[1]}" if make.bound_by else ""
    return [Told(f"{between(make.window_mm)}{bound}", side.node)]


def _facts(side: SideShown) -> list[Row]:
    option = option_of(side)
    if option is None:
        return []
    where = option.node.removeprefix("contest/")
    return [row(name, _known(option.facts.get(key), f"{where}/{key}")) for key, name in FIT.items()]


def _known(found: Found | None, where: str) -> Told | None:
    return None if found is None or found.unknown is not None else fact(found, where)
