"""Which known shells agree with what was measured, and what would tell them apart."""

from collections.abc import Callable, Iterable, Mapping
from itertools import combinations
from typing import NamedTuple

from recommender.bench.case import Case
from recommender.deriving.collector import Collector
from recommender.deriving.derived import SideName
from recommender.deriving.measured import MeasuredLog
from recommender.deriving.spreads import COVERAGE, scalar_spread
from recommender.metrology.draws import Draws
from recommender.rulebook.book import Rulebook, Standard

SPINDLE_ALIKE = 0.6
UNMEASURED = "neither bore, width, stop nor spindle is known"
NO_SHELL = "no known shell agrees with everything measured"
Band = tuple[float, float]
Bands = Iterable[Band]


class Seen(NamedTuple):
    """What a bench knows of a shell: bores and width in mm with their 95 % ends, stop, material, spindle (mm)."""

    bores: tuple[Band, ...]
    width: Band | None
    stop: str | None
    material: str | None
    spindle: float | None

    @property
    def bore_alone(self) -> "Seen":
        """Return only bores and material, for a shell whose width or stop is that of no known one."""
        return Seen(self.bores, None, None, self.material, None)

    @property
    def anything(self) -> bool:
        """Return whether anything is known that tells shells apart; the material alone does not."""
        return bool(self.bores or self.width or self.stop or self.spindle)


class Room(NamedTuple):
    """How far a bore may lie under and over the size of a shell, and a width from a listed one (mm)."""

    under: float
    over: float
    width: float


def identity_facts(
    case: Case, book: Rulebook, drawn: Mapping[SideName, Draws | None], log: MeasuredLog, made: Collector
) -> bool:
    """Derive the shells that agree, what tells them apart, and return whether the stated standard is in doubt."""
    room, known = _room(book), _seen(case, book, drawn)
    inputs = _inputs(case, log)
    found = agreeing(book.standards.values(), known, room, case.frame.standard)
    stated = book.standards.get(case.frame.standard)
    agrees = None if stated is None else stated in found
    doubt = agrees is not True
    made.word("frame.standard_agrees", agrees, "frame.standard", *inputs, why="no shell standard is named")
    if not known.anything:
        for fact in ("frame.candidates", "frame.known_shell"):
            made.unknown(fact, UNMEASURED, *inputs)
    else:
        named = found or agreeing(book.standards.values(), known.bore_alone, room) if known.bores else found
        made.word("frame.candidates", ", ".join(each.id for each in named) or None, *inputs, why=NO_SHELL)
        made.word("frame.known_shell", bool(found), *inputs)
    apart = told_apart_by(found, known, room) if known.anything else "bore"
    if not doubt:
        made.not_applicable("frame.told_apart_by", "the shell named agrees with what was measured", *inputs)
    else:
        made.word("frame.told_apart_by", apart, *inputs, why="nothing is left that could tell them apart")
    return doubt


def agreeing(shells: Iterable[Standard], seen: Seen, room: Room, stated: str = "") -> tuple[Standard, ...]:
    """Return the shells that nothing measured excludes, by id; a spindle only chooses among these, it excludes none.

    A number excludes a shell when its whole 95 % interval lies outside what the shell can be. The stated shell is not
    left out for its spindle: adaptors are common.
    """
    left = [each for each in sorted(shells, key=lambda each: each.id) if _agrees(each, seen, room)]
    takes = [each for each in left if seen.spindle is None or _takes(each, seen.spindle)]
    return tuple(each for each in left if not takes or each in takes or each.id == stated)


def told_apart_by(shells: Iterable[Standard], seen: Seen, room: Room) -> str | None:
    """Return what tells most pairs of shells apart: a look at the stop, the width, the bore, the middle, the thread.

    What is known already tells nothing more. None when nothing tells any two of them apart.
    """
    pairs = list(combinations(shells, 2))
    ways: dict[str, Callable[[Standard, Standard], bool]] = {
        "stop": lambda one, two: seen.stop is None and _apart(one.stops, two.stops),
        "width": lambda one, two: seen.width is None and not _near(one.widths, two.widths, 2 * room.width),
        "bore": lambda one, two: not seen.bores
        and abs(one.bore.nominal - two.bore.nominal) > room.over - room.under,
        "middle": lambda one, two: one.asymmetric != two.asymmetric,
        "thread": lambda one, two: one.kind == two.kind == "threaded",
    }
    told = {name: sum(way(*pair) for pair in pairs) for name, way in ways.items()}
    best = max(told, key=lambda name: told[name])
    return best if told[best] else None


def _agrees(shell: Standard, seen: Seen, room: Room) -> bool:
    nominal = shell.bore.nominal
    return (
        all(low <= nominal + room.over and high >= nominal + room.under for low, high in seen.bores)
        and (seen.width is None or any(_within(seen.width, each, room.width) for each in shell.widths))
        and (seen.stop is None or not shell.stops or seen.stop in shell.stops)
        and (seen.material is None or not shell.materials or seen.material in shell.materials)
    )


def _within(band: Band, wanted: float, room: float) -> bool:
    return band[0] <= wanted + room and band[1] >= wanted - room


def _takes(shell: Standard, spindle: float) -> bool:
    return not shell.spindles or _near(shell.spindles, (spindle,), SPINDLE_ALIKE)


def _near(some: Iterable[float], others: Iterable[float], room: float) -> bool:
    """Return whether any two lie within `room` of each other, or either holds nothing that could differ."""
    one, two = tuple(some), tuple(others)
    return not one or not two or any(abs(a - b) <= room for a in one for b in two)


def _apart(one: tuple[str, ...], two: tuple[str, ...]) -> bool:
    return bool(one) and bool(two) and not set(one) & set(two)


def _room(book: Rulebook) -> Room:
    return Room(*(book.limits[f"identity.{each}"].value for each in ("bore_under", "bore_over", "width")))


def _seen(case: Case, book: Rulebook, drawn: Mapping[SideName, Draws | None]) -> Seen:
    frame = case.frame
    width = None
    if frame.shell_width is not None:
        half = scalar_spread(frame.shell_width, "shell_width", case, book).u * COVERAGE
        width = (frame.shell_width.value - half, frame.shell_width.value + half)
    return Seen(
        tuple(_band(each) for each in drawn.values() if each is not None),
        width,
        _known(frame.stop),
        _known(frame.material),
        None if frame.spindle is None else float(frame.spindle.value),
    )


def _band(draws: Draws) -> Band:
    """Return the 95 % interval of a bore's mean diameter (mm)."""
    made = draws.by.summary(draws.mean)
    return made.low, made.high


def _known(text: str) -> str | None:
    return None if text == "unknown" else text


def _inputs(case: Case, log: MeasuredLog) -> tuple[str, ...]:
    stop = log.keep(("frame", "stop"), "axial stop of the seats", case.frame.stop.replace("_", " "))
    return ("bore.mean_diameter", "frame.width_difference", "frame.material", stop)
