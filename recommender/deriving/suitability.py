"""Whether the instruments of a side suit this bore: its size, the depth read, the seat, and what their papers claim."""

from collections.abc import Sequence

from recommender.bench.case import Case
from recommender.bench.instruments import Instrument
from recommender.bench.sides import Side, readings_of
from recommender.deriving.collector import Collector
from recommender.deriving.derived import SideName
from recommender.deriving.sheet import BoreSheet
from recommender.deriving.spreads import COVERAGE, scalar_spread
from recommender.metrology.scan import section_of
from recommender.rulebook.book import Rulebook

NOT_READ = "the bore was not read"
FACTS = (
    "evidence.range_missed", "evidence.reach_missed", "evidence.guide_missed", "evidence.claims_believed",
    "evidence.feel_repeated",
)


def suitability_facts(case: Case, name: SideName, book: Rulebook, sheet: BoreSheet, made: Collector) -> None:
    """Derive how far the instruments used are out of the range, reach and seat they need, and what they claim."""
    used, inputs = sheet.instruments, sheet.instrument_inputs
    if not used:
        for fact in FACTS:
            made.unknown(fact, NOT_READ)
        return
    side: Side = getattr(case.sides, name)
    read = [each for each in readings_of(side, ("sides", name)) if each.struck is None]
    depths = [(each.instrument, each.depth) for each in read]
    depths += [(each.instrument, each.depth) for each in sheet.sheet.scans]
    made.exact("evidence.range_missed", _range_missed(used, sheet, book), *inputs, *sheet.inputs)
    reaches = {each.id: book.instruments[each.kind].handling.reach for each in used}
    beyond = [depth - reach for by, depth in depths if depth is not None and (reach := reaches.get(by)) is not None]
    made.exact("evidence.reach_missed", max([0.0, *beyond]), *inputs, *sheet.inputs)
    _guide(case, side, used, inputs, book, made)
    fine = [each.error_limit is None or each.error_limit >= book.instruments[each.kind].finest for each in used]
    made.word("evidence.claims_believed", all(fine), *inputs)
    felt = {each.id for each in used if book.instruments[each.kind].handling.feel == "much"}
    repeated = {each.instrument for each in read if each.repeat > 0}
    made.word("evidence.feel_repeated", felt <= repeated, *inputs, *sheet.inputs)


def _range_missed(used: Sequence[Instrument], sheet: BoreSheet, book: Rulebook) -> float:
    """Return how far the farthest reading lies outside the sizes its kind of instrument reads, in mm."""
    usable = {each.id: book.instruments[each.kind].handling.usable for each in used}
    sizes = [(each.instrument, each.value) for each in sheet.sheet.readings]
    sizes += [(each.instrument, end) for each in sheet.sheet.spans for end in (each.smallest, each.largest)]
    sizes += [(each.instrument, section_of(each.points, each.depth).least_squares.diameter)
              for each in sheet.sheet.scans]
    return max(max(0.0, usable[by][0] - size, size - usable[by][1]) for by, size in sizes)


def _guide(
    case: Case, side: Side, used: Sequence[Instrument], inputs: Sequence[str], book: Rulebook, made: Collector
) -> None:
    guides = [book.instruments[each.kind].handling.guide for each in used]
    longest = max((each for each in guides if each is not None), default=None)
    if longest is None:
        made.exact("evidence.guide_missed", 0.0, *inputs)
    elif side.seat_depth is None:
        made.unknown("evidence.guide_missed", "the depth of the seat was not measured", *inputs)
    else:
        missed, half = longest - side.seat_depth.value, COVERAGE * scalar_spread(side.seat_depth, "depth", case, book).u
        value, low, high = (max(0.0, each) for each in (missed, missed - half, missed + half))
        made.between("evidence.guide_missed", value, low, high, *inputs, "seat.depth")
