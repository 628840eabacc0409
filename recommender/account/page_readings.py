"""Conditions, instruments, raw readings and gauges as they were written down, struck readings with their reason."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from recommender.account.page_matter import Matter, Row, listed_words, row, rows, side_title
from recommender.account.page_told import Told
from recommender.account.words import SIDES, readable
from recommender.bench.gauges import Gauge
from recommender.bench.instruments import Instrument, Ring
from recommender.bench.readings import Path, ReadingPoint, Readings, points, spans
from recommender.bench.scans import scans
from recommender.bench.sides import Side
from recommender.deciding.trace import Measured

UNKNOWN = "unknown"
LOOKED = "case:damage.looked_at"
CLEANED = {"yes_cleaned": "yes", "not_cleaned": "no"}


class Cell(NamedTuple):
    """What stands in one cell of a sheet: a reading and the reason it was struck for, empty when it stands."""

    reading: Told
    struck: str


class Line(NamedTuple):
    """One depth of a sheet, or a row without depth, with its cells."""

    depth: Told | None
    cells: Sequence[Sequence[Cell]]


class Block(NamedTuple):
    """What one instrument read in one bore: turns across, depths down."""

    instrument: str
    kind: str
    turns: Sequence[Told]
    lines: Sequence[Line]
    spread: Told | None
    note: str


class Sheet(NamedTuple):
    """Everything read of one side, the gauges tried, and the state the bore was in."""

    title: str
    reason: str
    blocks: Sequence[Block]
    gauges: Sequence[Told]
    state: Sequence[Row]


class Tool(NamedTuple):
    """An instrument and its records."""

    name: str
    kind: str
    span: Told
    error_limit: Told
    resolution: Told
    calibrated: Told
    ring: Told


def conditions(matter: Matter) -> list[Row]:
    """Return the temperatures, the soak and the alignment as measured."""
    bench, line = matter.case.bench, matter.case.alignment
    warm = bench.frame_temperature
    offset = line.offset if line else None
    angle = line.angle if line else None
    return [
        row("Frame temperature", Told(f"{warm.value:g} degC" if warm else UNKNOWN, "case:bench.frame_temperature")),
        row("Soaked", Told(bench.soaked or "not noted", "case:bench.soaked")),
        row("Offset of the bores", Told(f"{offset.value:g} mm" if offset else UNKNOWN, "case:alignment.offset")),
        row("Angle of the bores", Told(f"{angle.value:g} arcmin" if angle else UNKNOWN, "case:alignment.angle")),
        row("Alignment by", Told(readable(line.method) if line else "not measured", "case:alignment.method")),
    ]


def tools(matter: Matter) -> list[Tool]:
    """Return every instrument with its records."""
    return [_tool(matter, each, count) for count, each in enumerate(matter.case.bench.instruments)]


def sheets(matter: Matter) -> list[Sheet]:
    """Return what was read of each side."""
    return [_sheet(matter, name, measured) for name, _, measured in matter.sides()]


def assumed_spreads(matter: Matter) -> list[Told]:
    """Return everything measured whose spread was assumed, for lack of a stated one."""
    nodes = sorted(matter.advice.trace.nodes.items())
    return [
        Told(f"{_of_side(name)}{each.what}: {each.shown} ({each.spread})", name)
        for name, each in nodes if isinstance(each, Measured) and each.assumed
    ]  # fmt: skip


def _of_side(name: str) -> str:
    side = name.removeprefix("case:sides.").partition(".")[0]
    return f"{SIDES[side]}, " if side in SIDES else ""


def looked_at(matter: Matter) -> list[Row]:
    """Return every place of the frame and how it was looked at."""
    seen = matter.case.damage.looked_at
    places = [*matter.book.words["places"], *(each for each in seen if each not in matter.book.words["places"])]
    absent = _absent(matter)
    return [
        row(readable(each), Told(listed_words(seen.get(each, ())) or absent.get(each, "not looked at"), LOOKED))
        for each in places
    ]


def _absent(matter: Matter) -> dict[str, str]:
    """Return the places this frame does not have."""
    frame = matter.case.frame
    ports = {"port_edge": "none on this frame"} if frame.openings == () else {}
    return ports | ({"insert_edge": "none on this frame"} if frame.insert == "none" else {})


def signs(matter: Matter) -> list[Told]:
    """Return every sign of damage as it was written down."""
    return [Told(text, f"case:damage.signs.{count}") for count, text in enumerate(_signs(matter))]


def _signs(matter: Matter) -> Iterator[str]:
    for each in matter.case.damage.signs:
        told = [
            readable(each.sign),
            readable(each.where),
            SIDES.get(each.side or "", ""),
            f"{each.length.value:g} mm long" if each.length else "",
            f"{each.depth.value:g} mm from the face" if each.depth else "",
            f"at {each.clock:g} degrees" if each.clock is not None else "",
            f"photograph {each.photo}" if each.photo else "",
            each.note,
        ]
        yield ", ".join(filter(None, told))


def _tool(matter: Matter, tool: Instrument, count: int) -> Tool:
    where = f"case:bench.instruments.{count}"
    span = f"{tool.range[0]:g} to {tool.range[1]:g} mm" if tool.range else UNKNOWN
    return Tool(
        tool.id,
        matter.book.instruments[tool.kind].title,
        Told(span, f"{where}.range"),
        Told(_um(tool.error_limit), f"{where}.error_limit"),
        Told(_um(tool.resolution), f"{where}.resolution"),
        Told(tool.calibrated.isoformat() if tool.calibrated else UNKNOWN, f"{where}.calibrated"),
        Told(_ring(tool.ring), f"{where}.ring"),
    )


def _um(value: float | None) -> str:
    return UNKNOWN if value is None else f"{value * 1000:g} um"


def _ring(ring: Ring | None) -> str:
    if ring is None:
        return "not checked on a ring"
    before, after = (UNKNOWN if each is None else f"{each:.3f}" for each in (ring.before, ring.after))
    return f"ring {ring.size.value:.3f}, read {before} before, {after} after, mm"


def _sheet(matter: Matter, name: str, side: Side) -> Sheet:
    blocks = [_block(matter, each, ("sides", name, "readings", at)) for at, each in enumerate(side.readings)]
    gauges = [Told(_gauge(each), f"case:sides.{name}.gauges.{at}") for at, each in enumerate(side.gauges)]
    return Sheet(side_title(name), side.reason or "", blocks, gauges, _state(name, side))


def _state(name: str, side: Side) -> list[Row]:
    where, state, press = f"case:sides.{name}", side.bore_state, side.press
    force = f"{press.force.value:g} N, " if press.force else ""
    depth = side.seat_depth
    return rows([
        row("Depth of the seat", Told(f"{depth.value:g} mm" if depth else UNKNOWN, f"{where}.seat_depth")),
        row("Cleaned", Told(CLEANED.get(state.cleaned, UNKNOWN), f"{where}.bore_state")),
        row("Coating", Told(readable(state.coating), f"{where}.bore_state")),
        row("Cut before", Told(readable(state.cut_before), f"{where}.bore_state")),
        row("Last part went in", Told(f"{force}{readable(press.feel)}", f"{where}.press")),
        row("Note", Told(side.note, f"{where}.note") if side.note else None),
    ])  # fmt: skip


def _block(matter: Matter, block: Readings, path: Path) -> Block:
    tool = matter.case.bench.instrument(block.instrument)
    kind = matter.book.instruments[tool.kind].title if tool else ""
    turns = [Told(f"{each:g}°", _name((*path, "turns"))) for each in block.turns or ()]
    return Block(block.instrument, kind, turns, list(_lines(block, path)), _spread(matter, block, path), block.note)


def _lines(block: Readings, path: Path) -> Iterator[Line]:
    rows_of: dict[float | None, dict[float | None, list[Cell]]] = {}
    for each in points(block, path):
        rows_of.setdefault(each.depth, {}).setdefault(each.turn, []).append(_cell(each))
    for depth, cells in rows_of.items():
        yield Line(_depth(depth, path), list(cells.values()))
    for span in spans(block, path):
        told = Told(f"{span.smallest:.3f} to {span.largest:.3f}", _name(span.path))
        yield Line(_depth(span.depth, path), [[Cell(told, span.struck or "")]])
    for scanned in scans(block, path):
        told = Told(f"{len(scanned.points)} points", _name(scanned.path))
        yield Line(_depth(scanned.depth, path), [[Cell(told, scanned.struck or "")]])


def _depth(depth: float | None, path: Path) -> Told | None:
    return None if depth is None else Told(f"{depth:g}", _name(path))


def _cell(point: ReadingPoint) -> Cell:
    return Cell(Told(f"{point.value:.3f}", _name(point.path)), point.struck or "")


def _name(path: Path) -> str:
    return "case:" + ".".join(str(step) for step in path)


def _spread(matter: Matter, block: Readings, path: Path) -> Told | None:
    taken = [*(each.path for each in points(block, path)), *(each.path for each in spans(block, path))]
    for at in [*taken, *(each.path for each in scans(block, path))]:
        node = matter.advice.trace.nodes.get(_name(at))
        if isinstance(node, Measured) and node.spread:
            return Told(node.spread.removesuffix(", assumed"), node.id, node.assumed)
    return None


def _gauge(gauge: Gauge) -> str:
    size = gauge.measured or gauge.size
    result = f"entered to {gauge.depth.value:g} mm" if gauge.depth else readable(gauge.result)
    words = {"enters fully": "entered fully", "did not enter": "did not enter"}
    return f"{gauge.kind.replace('_', '-')} gauge {size.value:.3f} mm: {words.get(result, result)}"
