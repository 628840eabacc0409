"""The pictures of a page, each with its caption: what is drawn, to which scale, and the numbers it shows."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from recommender.account.page_matter import Matter, option_of, side_title
from recommender.account.page_told import Told, fact
from recommender.account.pictures.bores import Bore, bore
from recommender.account.pictures.depth import Piece, depth
from recommender.account.pictures.drawing import Picture, plain_settings
from recommender.account.pictures.section import section
from recommender.account.words import lower
from recommender.bench.sides import Side, readings_of
from recommender.deciding.answer import Found, SideShown

IN_SECTION = {
    "bore.mean_diameter": "mean", "bore.ovality": "oval", "bore.lobing": "three-lobed",
    "bore.inscribed_diameter": "largest circle that enters",
}  # fmt: skip
ALONG_DEPTH = {"bore.mouth_diameter": "at the face", "bore.inner_diameter": "at the inner end", "bore.taper": "taper"}
ASSUMED = "Assumed, not measured: part of the form drawn here; no reading shows it. The broken line marks it."


class Figure(NamedTuple):
    """A picture with its title, the numbers in it, and what must be said about it."""

    picture: Picture
    title: str
    numbers: tuple[Told, ...]
    remarks: tuple[str, ...]


def bore_figures(matter: Matter) -> list[Figure]:
    """Return section and depth of each bore that was read."""
    with plain_settings():
        return [each for name, side, measured in matter.sides() for each in _of_side(matter, name, side, measured)]


def _of_side(matter: Matter, name: str, side: SideShown, measured: Side) -> Iterator[Figure]:
    sees = {each.id: matter.book.instruments[each.kind].sees for each in matter.case.bench.instruments}
    points = readings_of(measured, ("sides", name))
    seat = measured.seat_depth.value if measured.seat_depth else max((each.depth or 0.0 for each in points), default=0)
    drawn = bore(name, side.facts, points, sees, seat)
    if drawn is None:
        return
    yield _section(matter, drawn, side.facts)
    if drawn.seat > 0:
        yield _depth(matter, drawn, side)


def _limits(matter: Matter) -> tuple[float | None, float | None]:
    standard = matter.standard
    return (None, None) if standard is None else (standard.bore.lower, standard.bore.upper)


def _section(matter: Matter, drawn: Bore, facts: Mapping[str, Found]) -> Figure:
    where = drawn.name
    alt = f"Section of the bore on the {lower(side_title(where))}, seen from its face, with the readings as points, "
    made, scale = section(drawn, _limits(matter), f"{alt}the largest circle that enters and the limits as circles.")
    numbers = (*_numbers(drawn, facts, IN_SECTION), Told(f"deviation enlarged {scale} times", "drawing:scale"))
    remarks = ("Seen from the face of this side, turns clockwise. Readings are brought to the middle of the seat; each "
               "stands at every contact of its instrument. The largest circle is that of the whole seat.",)  # fmt: skip
    return Figure(made, f"{side_title(where)}: section", numbers, (*remarks, *([ASSUMED] if drawn.assumed else [])))


def _depth(matter: Matter, drawn: Bore, side: SideShown) -> Figure:
    where, facts = drawn.name, side.facts
    pieces = _pieces(side, drawn.seat)
    alt = f"Diameter along the depth of the seat on the {lower(side_title(where))}, with readings, limits and part."
    numbers = (*_numbers(drawn, facts, ALONG_DEPTH), *_part_number(side))
    remarks = [ASSUMED] if drawn.assumed else []
    remarks += ["The part was not measured; its diameter is drawn with a broken edge."] * any(p.assumed for p in pieces)
    made = depth(drawn, _limits(matter), pieces, alt)
    return Figure(made, f"{side_title(where)}: along the depth", numbers, tuple(remarks))


def _numbers(drawn: Bore, facts: Mapping[str, Found], wanted: Mapping[str, str]) -> list[Told]:
    return [_named(name, fact(facts.get(key), f"{drawn.name}/{key}")) for key, name in wanted.items()]


def _named(name: str, told: Told) -> Told:
    return told._replace(text=f"{name} {told.text}")


def _part_number(side: SideShown) -> list[Told]:
    option = option_of(side)
    if option is None or "part.od" not in option.facts:
        return []
    where = f"{option.node.removeprefix('contest/')}/part.od"
    return [_named("outside of the part", fact(option.facts["part.od"], where))]


def _pieces(side: SideShown, seat: float) -> list[Piece]:
    """Return what goes into the bore: the lands or the outside of the chosen part, and the bore it is reamed to."""
    make, option = side.make, option_of(side)
    if make is None or option is None:
        return []
    reamed = [Piece(0.0, seat, make.bore_mm, "bore to ream to", False)] if make.bore_mm else []
    if make.lands:
        return [*reamed, *(Piece(each.start_mm, each.end_mm, each.od_mm, "land to turn", False) for each in make.lands)]
    if make.od_mm:
        return [*reamed, Piece(0.0, seat, make.od_mm, "outside to turn", False)]
    od = option.facts.get("part.od")
    if od is None or od.low is None or od.high is None:
        return reamed
    measured = option.facts.get("part.measured")
    unmeasured = measured is None or measured.word is not True
    return [*reamed, Piece(0.0, seat, (od.low, od.high), "outside of the part", unmeasured)]
