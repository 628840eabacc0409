"""Writes the case file of a frame: as a bench would, or, for the truth, with everything as it is and no spread."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, NamedTuple

from recommender.bench.load import LoadedCase, case_in
from recommender.deriving.derived import SIDES, SideName
from recommender.reading.yaml_reader import read_text
from recommender.rulebook.book import Rulebook
from virtual_bench.frames import Frame
from virtual_bench.habits import Bench, Block, Plug

RECEIVED, CALIBRATED = "2026-05-04", "2026-02-11"
KINDS = {"mic": "three_point_micrometer", "two": "two_point_gauge", "cal": "calliper"}
EXACT = 1e-6


class PartShown(NamedTuple):
    """A part in hand as a case file has it; `id` tells it from others of its kind."""

    part: str
    side: SideName
    od: float
    id: str = ""


def case_text(frame: Frame, bench: Bench, book: Rulebook) -> str:
    """Return the case file of what a bench measured."""
    parts = [PartShown(frame.shell["part"], name, bench.parts[name]) for name in SIDES] if frame.part_in_hand else []
    return "\n".join(_lines(frame, bench, parts, book, exact=False)) + "\n"


def true_text(frame: Frame, bench: Bench, parts: Iterable[PartShown], book: Rulebook) -> str:
    """Return a case file in which everything stands as it truly is, known without spread."""
    return "\n".join(_lines(frame, bench, parts, book, exact=True)) + "\n"


def loaded(text: str, name: str) -> LoadedCase:
    """Return the case in a text; raises FlawedCase as reading a file does."""
    return case_in(read_text(text, name))


def _lines(frame: Frame, bench: Bench, parts: Iterable[PartShown], book: Rulebook, *, exact: bool) -> Iterator[str]:
    def size(value: float, unit: str = "mm") -> str:
        return f"{{value: {value:.6f} {unit}, within: {EXACT:f} {unit}}}" if exact else f"{value:.6g} {unit}"

    yield f"case: frame-{frame.number}"
    yield f"title: {frame.kind}"
    yield f"received: {RECEIVED}"
    yield f"frame: {_frame_line(frame, bench, size)}"
    yield ("history: {symptoms: [creak], ruled_out_elsewhere: [pedals], crash: no_crash, cups: [], warranty: closed, "
           "consent: [ream, sleeve]}")
    yield "bench:"
    yield f"  frame_temperature: {'{value: 20 degC, within: 0.0001 K}' if exact else f'{bench.temperature} degC'}"
    yield "  instruments:"
    yield from _instruments(bench, book, exact=exact)
    yield "sides:"
    for name in SIDES:
        yield f"  {name}:"
        yield f"    seat_depth: {size(bench.seats[name])}"
        yield f"    wall: {size(bench.walls[name])}"
        yield "    bore_state: {cleaned: yes_cleaned, coating: none, cut_before: uncut}"
        yield "    readings:"
        yield from (f"      - {_block(each)}" for each in bench.blocks[name])
        if bench.plugs[name]:
            yield "    gauges:"
            yield from (f"      - {_plug(each, frame.sides[name].shape.seat)}" for each in bench.plugs[name])
    yield from _alignment(frame, bench, size)
    yield from _damage(frame, exact=exact)
    yield "parts:" if parts else "parts: []"
    yield from (f"  - {_part(each, size, book)}" for each in parts)


def _frame_line(frame: Frame, bench: Bench, size: Any) -> str:
    shell = frame.shell
    insert = "bonded, insert_material: aluminium, insert_wall: " + size(bench.insert_wall) if frame.insert else "none"
    openings = ", ".join(
        f"{{kind: port, side: {each['side']}, size: {size(each['size'])}, ligament: {size(each['ligament'])}, "
        f"seat_distance: {size(each['seat_distance'])}}}" for each in bench.openings
    )
    spindle = 24 if shell["part"] in ("bearing_37", "polymer_cup_41") else 30
    return (f"{{material: {shell['material']}, standard: {shell['standard']}, shell_width: {size(shell['width'])}, "
            f"spindle: {spindle} mm, insert: {insert}, openings: [{openings}]}}")


def _instruments(bench: Bench, book: Rulebook, *, exact: bool) -> Iterator[str]:
    used = {block.instrument for name in SIDES for block in bench.blocks[name]}
    for each in sorted(used):
        data = book.instruments[KINDS[each]]
        limit, step = (EXACT, EXACT) if exact else (data.error_limit, data.resolution)
        ring = bench.rings.get(each)
        shown = "" if ring is None else (f", ring: {{size: {ring.size:.3f} mm, before: {ring.before:.3f} mm, "
                                         f"after: {ring.after:.3f} mm}}")
        yield (f"    - {{id: {each}, kind: {KINDS[each]}, error_limit: {limit * 1000:g} um, "
               f"resolution: {step * 1000:g} um, calibrated: {CALIBRATED}{shown}}}")


def _block(block: Block) -> str:
    rows = ", ".join(f"{depth:g}: {_row(row)}" for depth, row in block.rows.items())
    if block.full_turns:
        return f"{{instrument: {block.instrument}, unit: mm, spans: {{{rows}}}}}"
    if not block.turns:
        return f"{{instrument: {block.instrument}, unit: mm, loose: {_row(block.rows[0.0])}}}"
    turns = ", ".join(f"{turn:g}" for turn in block.turns)
    return f"{{instrument: {block.instrument}, unit: mm, turns: [{turns}], at: {{{rows}}}}}"


def _row(values: Iterable[float]) -> str:
    return f"[{', '.join(f'{value:.5f}'.rstrip('0') for value in values)}]"


def _plug(plug: Plug, seat: float) -> str:
    how = "enters_fully" if plug.fully else "did_not_enter"
    if not plug.fully and plug.depth is not None:
        how = f"entered_to, depth: {min(plug.depth, seat):.1f} mm"
    return f"{{kind: {plug.kind}, size: {plug.size:.3f} mm, measured: {plug.measured:.3f} mm, result: {how}}}"


def _alignment(frame: Frame, bench: Bench, size: Any) -> Iterator[str]:
    if frame.aligned_known:
        yield f"alignment: {{offset: {size(bench.offset)}, angle: {size(bench.angle, 'arcmin')}, method: bar}}"


def _damage(frame: Frame, *, exact: bool) -> Iterator[str]:
    places = {"bore": "lamp", "lip": "lamp", "shell_outside": "tap"}
    places |= {"port_edge": "lamp"} if frame.openings else {}
    places |= {"insert_edge": "lamp"} if frame.insert else {}
    places |= {"joint": "lamp"} if frame.insert or frame.shell["material"] == "carbon" else {}
    seen = places if exact else {place: way for place, way in places.items() if place != frame.missed}
    signs = f"{{sign: {frame.sign}, where: shell_outside}}" if frame.sign and "shell_outside" in seen else ""
    yield "damage:"
    yield f"  looked_at: {_flow(seen)}"
    yield f"  signs: [{signs}]"
    if frame.insert:
        yield f"  insert_test: {'firm' if exact and frame.insert == 'unknown' else frame.insert}"


def _part(part: PartShown, size: Any, book: Rulebook) -> str:
    fitted = ", bearing_fitted: fitted" if book.parts[part.part].kind == "cup" else ""
    mark = f", id: {part.id}" if part.id else ""
    return f"{{part: {part.part}, side: {part.side}, od: {size(part.od)}{fitted}{mark}}}"


def _flow(given: Mapping[str, str]) -> str:
    return "{" + ", ".join(f"{key}: {value}" for key, value in given.items()) + "}"
