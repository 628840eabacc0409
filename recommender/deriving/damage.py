"""Damage facts: a sign is found, or it is not there because every place was looked at, or it is unknown."""

from recommender.bench.case import Case
from recommender.bench.damage import Sign
from recommender.deriving.collector import Collector
from recommender.deriving.derived import SideName
from recommender.deriving.measured import MeasuredLog
from recommender.rulebook.book import Rulebook

FRAME_SIGNS = (
    "crack",
    "delamination",
    "loose_fibres",
    "disbond_line",
    "paint_bubbles",
    "white_powder",
    "lacquer_scratch",
)
SIDE_SIGNS = ("polished_band", "crushed_lip", "bell_mouth", "mould_mark")
CORROSION = ("white_powder", "paint_bubbles")
BOND_PLACES = ("insert_edge", "joint", "unknown")
SIDE_PLACES = ("bore", "lip")


def places_of(case: Case) -> tuple[str, ...]:
    """Return the places this frame has: what is not known to be absent is there."""
    frame = case.frame
    places = ["bore", "lip", "shell_outside"]
    if frame.openings is None or frame.openings:
        places.append("port_edge")
    if frame.insert != "none":
        places.append("insert_edge")
    if frame.material in ("carbon", "unknown") or frame.insert != "none":
        places.append("joint")
    return tuple(places)


def frame_damage(case: Case, log: MeasuredLog, made: Collector) -> None:
    """Derive the damage facts of the whole frame."""
    unseen = tuple(place for place in places_of(case) if not case.damage.ways(place))
    looked = _looked(case, log)
    named = ", ".join(place.replace("_", " ") for place in unseen)
    made.exact("damage.places_unseen", len(unseen), looked, note=named)
    for name in FRAME_SIGNS:
        signs = [(index, sign) for index, sign in enumerate(case.damage.signs) if sign.sign == name]
        _flag(made, log, f"damage.{name}", signs, unseen, looked)
    corroded = [(index, sign) for index, sign in enumerate(case.damage.signs) if _at_bond(sign, case)]
    _flag(made, log, "damage.bond_corrosion", corroded, unseen, looked)
    test = case.damage.insert_test
    tested = log.keep(("damage", "insert_test"), "load test of the insert", test)
    made.word("damage.insert_test", None if test == "unknown" else test, tested, why="the insert was not load-tested")


def _at_bond(sign: Sign, case: Case) -> bool:
    """Return whether a sign of corrosion stands where metal is bonded to laminate.

    Powder at a joint of a laminate frame shows that metal is bonded in there, also where the bore has no insert.
    """
    if sign.where not in BOND_PLACES:
        return False
    laminate = case.frame.material in ("carbon", "unknown")
    return sign.sign in CORROSION and (case.frame.insert != "none" or (laminate and sign.sign == "white_powder"))


def side_damage(case: Case, side: SideName, log: MeasuredLog, made: Collector) -> None:
    """Derive the damage facts of one side; a sign without a side counts for both."""
    unseen = tuple(place for place in SIDE_PLACES if not case.damage.ways(place))
    looked = _looked(case, log)
    for name in SIDE_SIGNS:
        signs = [
            (index, sign)
            for index, sign in enumerate(case.damage.signs)
            if sign.sign == name and sign.side in (side, None)
        ]
        _flag(made, log, f"damage.{name}", signs, unseen, looked)


def crack_seen(case: Case, book: Rulebook) -> bool:
    """Return whether any sign that means a crack stands in the case, whatever the rules make of it."""
    cracks = {"crack", *book.lists.get("cracks", ())}
    return any(sign.sign in cracks for sign in case.damage.signs)


def _flag(
    made: Collector, log: MeasuredLog, fact: str, signs: list[tuple[int, Sign]], unseen: tuple[str, ...], looked: str
) -> None:
    if signs:
        made.word(fact, True, *(_sign(log, index, sign) for index, sign in signs))
    elif unseen:
        made.unknown(fact, "not looked at: " + ", ".join(place.replace("_", " ") for place in unseen), looked)
    else:
        made.word(fact, False, looked)


def _sign(log: MeasuredLog, index: int, sign: Sign) -> str:
    where = f"at {sign.where.replace('_', ' ')}" + (f", {sign.side.replace('_', '-')} side" if sign.side else "")
    length = f", {sign.length.value:g} mm long" if sign.length else ""
    note = f" ({sign.note})" if sign.note else ""
    return log.keep(("damage", "signs", index), sign.sign.replace("_", " "), f"seen {where}{length}{note}")


def _looked(case: Case, log: MeasuredLog) -> str:
    ways = (f"{place.replace('_', ' ')} ({', '.join(case.damage.ways(place))})" for place in case.damage.looked_at)
    return log.keep(("damage", "looked_at"), "places looked at", ", ".join(ways) or "none")
