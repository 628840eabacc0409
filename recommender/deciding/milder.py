"""Whether one decision is milder or stricter than another on the same case."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, Literal, NamedTuple

from recommender.deciding.answer import Advice

Direction = Literal["milder", "stricter", "other_remedy"]
STRICTNESS = {"ruled_out": 3, "not_applicable": 3, "unsettled": 2, "cleared_with_cautions": 1, "cleared": 0}
VERDICTS = {"refuse": 3, "measure_again": 2, "held": 1}
STOPS = {"holds": 2, "undecided": 1, "fails": 0}


class Standing(NamedTuple):
    """What counts when two decisions are compared.

    `stops` is 2 when work is stopped for damage, 1 when that is undecided, else 0; `verdicts` are those of frame and
    sides, `remedies` the outcome of each remedy as `drive/press_as_is`, `irreversible` the ids that cannot be undone.
    """

    stops: int
    verdicts: Mapping[str, str]
    remedies: Mapping[str, str]
    irreversible: frozenset[str]


class Change(NamedTuple):
    """One difference between two decisions; `listed_milder` tells whether it stands with the milder ones."""

    where: str
    direction: Direction
    before: str
    after: str
    listed_milder: bool


def standing(advice: Advice) -> Standing:
    """Return what counts of an advice."""
    frame, sides = advice.frame, advice.sides
    general = [*frame.findings, *(finding for side in sides.values() for finding in side.findings)]
    remedies = {f"{name}/{each.id}": each for name, side in sides.items() for each in side.remedies}
    return Standing(
        _stops(((each.stance, each.outcome) for each in general), frame.damage),
        {"frame": frame.verdict} | {name: side.verdict for name, side in sides.items()},
        {name: each.outcome for name, each in remedies.items()},
        frozenset(each.id for each in remedies.values() if not each.reversible),
    )


def standing_of_data(data: Mapping[str, Any]) -> Standing:
    """Return what counts of an advice given as plain data, such as a stored one."""
    frame, sides = data["frame"], data["sides"]
    general = [finding for each in (frame, *sides.values()) for finding in each["findings"]]
    remedies = {f"{name}/{each['id']}": each for name, side in sides.items() for each in side["remedies"]}
    return Standing(
        _stops(((each["stance"], each["outcome"]) for each in general), frame["damage"]),
        {"frame": frame["verdict"]} | {name: side["verdict"] for name, side in sides.items()},
        {name: each["outcome"] for name, each in remedies.items()},
        frozenset(each["id"] for each in remedies.values() if not each["reversible"]),
    )


def changes(before: Standing, after: Standing) -> tuple[Change, ...]:
    """Return every difference between two decisions, in a fixed order: frame, sides, remedies."""
    return tuple(_changes(before, after))


def milder(before: Standing, after: Standing) -> bool:
    """Return whether anything about `after` is milder than `before`, or turns towards work that cannot be undone."""
    return any(change.listed_milder for change in changes(before, after))


def _changes(before: Standing, after: Standing) -> Iterator[Change]:
    words = ("no stop", "stop undecided", "work stopped")
    yield from _ranked("stops_work", words[before.stops], words[after.stops], before.stops - after.stops)
    for where, verdict in after.verdicts.items():
        yield from _verdict(where, before.verdicts[where], verdict, before.irreversible | after.irreversible)
    for where in sorted({*before.remedies, *after.remedies}):
        one, two = (each.remedies.get(where, "not_applicable") for each in (before, after))
        yield from _ranked(where, one, two, STRICTNESS[one] - STRICTNESS[two])


def _ranked(where: str, before: str, after: str, towards_milder: int) -> Iterator[Change]:
    if towards_milder:
        yield Change(where, "milder" if towards_milder > 0 else "stricter", before, after, towards_milder > 0)


def _verdict(where: str, before: str, after: str, irreversible: frozenset[str]) -> Iterator[Change]:
    ranks = VERDICTS.get(before, 0), VERDICTS.get(after, 0)
    if before != after and ranks == (0, 0):
        yield Change(where, "other_remedy", before, after, after in irreversible)
        return
    yield from _ranked(where, before, after, ranks[0] - ranks[1])


def _stops(found: Iterable[tuple[str, str]], damage: bool) -> int:
    stopping = [STOPS[outcome] for stance, outcome in found if stance == "stops_work"]
    return max((2 if damage else 0, *stopping))
