"""One door: from a case and a rule book to everything the rules may ask about."""

from typing import NamedTuple

import numpy as np

from recommender.bench.case import Case
from recommender.bench.load import LoadedCase
from recommender.deriving.alignment import alignment_facts
from recommender.deriving.bore import bore_facts, seat_facts
from recommender.deriving.by_grid import answered
from recommender.deriving.causes import past_fit_fact
from recommender.deriving.collector import Collector
from recommender.deriving.conformity import conformity_facts
from recommender.deriving.damage import crack_seen, frame_damage, side_damage
from recommender.deriving.derived import SIDES, Derived, Only, SideFacts, SideName
from recommender.deriving.draws_of import bore_scores
from recommender.deriving.evidence import evidence_facts
from recommender.deriving.frame import frame_facts
from recommender.deriving.identity import identity_facts
from recommender.deriving.measured import MeasuredLog
from recommender.deriving.openings import openings_beside
from recommender.deriving.options import SideWork, side_options
from recommender.deriving.press_record import press_record_fact
from recommender.deriving.pressing_allows import pressing_allows
from recommender.deriving.sheet import BoreSheet, bore_sheet
from recommender.deriving.threaded import leave_out_of_frame, leave_out_of_side
from recommender.deriving.words import word_flaws
from recommender.facts.value import FactValue
from recommender.ground.flaw import Flawed
from recommender.metrology.draws import Draws, draw
from recommender.metrology.model import Posterior, posterior
from recommender.metrology.weighing import Weighing
from recommender.rulebook.book import Rulebook, Standard

NOTHING = SideFacts({}, ())


def derive(loaded: LoadedCase, book: Rulebook, only: Only | None = None) -> Derived:
    """Return facts and options of a case; raises Flawed when it uses words the rule book does not know.

    With `only`, one remedy is weighed on one side and nothing is derived of the other: enough to ask what becomes of
    that remedy, not to decide a frame.
    """
    flaws = word_flaws(loaded, book)
    if flaws:
        raise Flawed(flaws)
    case, log = loaded.case, MeasuredLog(loaded.document)
    frame = Collector()
    frame_facts(case, book, log, frame)
    frame_damage(case, log, frame)
    alignment_facts(case, book, log, frame)
    wanted = [name for name in SIDES if only is None or only.side == name]
    bores = {name: _bore(case, name, book, log) for name in wanted}
    drawn = {name: bores[name].draws if name in bores else None for name in SIDES}
    doubted = identity_facts(case, book, drawn, log, frame)
    sides = dict.fromkeys(SIDES, NOTHING)
    angle = frame.facts["alignment.angle"]
    sides |= {name: _side(case, name, bore, doubted, book, log, only, angle) for name, bore in bores.items()}
    _difference(drawn, frame)
    if _threaded(book.standards.get(case.frame.standard)):
        leave_out_of_frame(frame)
    return answered(Derived(frame.facts, sides, log.kept, crack_seen(case, book)), book)


class _Bore(NamedTuple):
    """What was read of one bore, what it says of its form, and the draws from that; None where nothing was read."""

    sheet: BoreSheet
    found: Posterior | None
    draws: Draws | None


def _bore(case: Case, name: SideName, book: Rulebook, log: MeasuredLog) -> _Bore:
    sheet = bore_sheet(case, name, book, log)
    return _Bore(sheet, *_posterior(sheet))


def _threaded(standard: Standard | None) -> bool:
    return standard is not None and standard.kind == "threaded"


def _side(
    case: Case, name: SideName, bore: _Bore, doubted: bool, book: Rulebook, log: MeasuredLog, only: Only | None,
    angle: FactValue,
) -> SideFacts:  # fmt: skip
    made = Collector()
    made.word("side.name", name)
    standard, draws = book.standards.get(case.frame.standard), bore.draws
    bore_facts(draws, bore.sheet, standard, made)
    seat_facts(case, name, book, log, made)
    beside = openings_beside(case, name, book, log, made)
    press_record_fact(case, name, book, draws, log, made)
    side_damage(case, name, log, made)
    evidence_facts(case, name, book, bore.sheet, bore.found, draws, made)
    conformity_facts(draws, standard, doubted, made)
    past_fit_fact(case, name, draws, log, made)
    if _threaded(standard):
        leave_out_of_side(made)
        return SideFacts(made.facts, ())
    if standard is None or draws is None:
        return SideFacts(made.facts, ())
    work = SideWork(case, name, book, log, standard, draws, beside, angle, only)
    pressing_allows(work, made)
    return SideFacts(made.facts, side_options(work, made))


def _posterior(sheet: BoreSheet) -> tuple[Posterior | None, Draws | None]:
    if not sheet.sheet.was_read:
        return None, None
    found = posterior(sheet.sheet)
    return found, draw(found, sheet.sheet, bore_scores())


def _difference(drawn: dict[SideName, Draws | None], made: Collector) -> None:
    """Derive how far the two bores differ; the same scores serve both sides, so the draws are paired apart."""
    drive, other = drawn["drive"], drawn["non_drive"]
    if drive is None or other is None:
        made.unknown("evidence.sides_difference", "a bore was not read")
        return
    apart = len(other.mean) // 2 + 1
    weights = drive.weights * np.roll(other.weights, apart)
    values = np.abs(drive.mean - np.roll(other.mean, apart)) * 1000
    made.drawn(
        "evidence.sides_difference",
        values,
        Weighing(weights / weights.sum(), min(drive.effective_count, other.effective_count), drive.confidence),
        ("bore.mean_diameter",),
    )
