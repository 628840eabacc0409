"""Facts of the whole frame: what it is, its history, and the temperatures on the bench."""

from recommender.bench.case import Case
from recommender.deriving.collector import Collector
from recommender.deriving.measured import MeasuredLog
from recommender.deriving.spreads import COVERAGE, scalar_spread
from recommender.facts.symptom import FACTS as SYMPTOMS
from recommender.rulebook.book import Rulebook

REFERENCE = 20.0
SOFTEST_FIRST = ("polymer", "aluminium", "steel")


def frame_facts(case: Case, book: Rulebook, log: MeasuredLog, made: Collector) -> None:
    """Derive what the frame is, what was told of it, and how warm it was."""
    _identity(case, book, log, made)
    _history(case, log, made)
    _temperatures(case, book, log, made)


def bore_material(case: Case) -> str | None:
    """Return what the bores are made of: the bonded insert's material, else the shell's; None when not known."""
    if case.frame.insert == "none":
        return None if case.frame.material == "unknown" else case.frame.material
    if case.frame.insert == "bonded":
        return "aluminium" if case.frame.insert_material == "unknown" else case.frame.insert_material
    return None if case.frame.material in ("unknown", "carbon") else case.frame.material


def _known(text: str) -> str | None:
    return None if text == "unknown" else text


def _identity(case: Case, book: Rulebook, log: MeasuredLog, made: Collector) -> None:
    frame = case.frame
    material = log.keep(("frame", "material"), "frame material", frame.material)
    insert = log.keep(("frame", "insert"), "insert", frame.insert)
    standard = log.keep(("frame", "standard"), "stated shell standard", frame.standard)
    made.word("frame.material", _known(frame.material), material)
    made.word("frame.insert", _known(frame.insert), insert)
    made.word(
        "frame.bore_material",
        bore_material(case),
        "frame.material",
        "frame.insert",
        why="what the frame is made of is not known"
        if frame.insert == "none"
        else "it is not known whether a metal insert is bonded in",
    )
    made.word("frame.standard", _known(frame.standard), standard)
    told = "not known" if frame.layup is None else "written down"
    layup = log.keep(("frame", "layup"), "lay-up of the laminate", told)
    made.word("frame.layup_known", frame.layup is not None, layup)
    if frame.spindle is None:
        made.unknown("frame.spindle", "the spindle was not stated")
    else:
        noted = log.keep(("frame", "spindle"), "spindle", f"{frame.spindle.value:g} mm", "by its nominal size")
        made.exact("frame.spindle", float(frame.spindle.value), noted)
    known = book.standards.get(frame.standard)
    made.word("frame.seat_kind", known.kind if known else None, "frame.standard", why="the shell standard is not known")
    if known is None:
        made.not_applicable("frame.width_difference", "no shell standard is named", "frame.standard")
        return
    if frame.shell_width is None or not known.widths:
        made.unknown("frame.width_difference", "the shell width was not measured", "frame.standard")
        return
    spread = scalar_spread(frame.shell_width, "shell_width", case, book)
    width = log.scalar(("frame", "shell_width"), "shell width", frame.shell_width, "mm", spread)
    difference = min(abs(frame.shell_width.value - each) for each in known.widths)
    half = spread.u * COVERAGE
    made.between(
        "frame.width_difference",
        difference,
        max(0.0, difference - half),
        difference + half,
        width,
        "frame.standard",
        assumed=spread.assumed,
    )


def _history(case: Case, log: MeasuredLog, made: Collector) -> None:
    told = case.history
    symptoms = log.keep(("history", "symptoms"), "symptoms", ", ".join(told.symptoms) or "none told")
    elsewhere = log.keep(
        ("history", "ruled_out_elsewhere"), "ruled out elsewhere", ", ".join(told.ruled_out_elsewhere) or "nothing"
    )
    crash = log.keep(("history", "crash"), "crash history", told.crash)
    warranty = log.keep(("history", "warranty"), "warranty", told.warranty)
    cups = log.keep(("history", "cups"), "earlier cups", f"{len(told.cups)} kinds" if told.cups else "none told")
    made.word("history.crash", _known(told.crash), crash)
    made.word(
        "history.warranty_open",
        {"open": True, "closed": False}.get(told.warranty),
        warranty,
        why="nobody asked whether a warranty claim is open",
    )
    made.word(
        "history.creak_elsewhere_open", "creak" in told.symptoms and not told.ruled_out_elsewhere, symptoms, elsewhere
    )
    for fact in SYMPTOMS:
        made.word(fact.id, fact.id.removeprefix("symptom.") in told.symptoms, symptoms)
    counts = [cup.fitted for cup in told.cups or ()]
    if told.cups is None or None in counts:
        made.unknown("history.refits", "nobody knows how often cups were fitted", cups)
    else:
        made.exact("history.refits", float(sum(count or 0 for count in counts)), cups)
    fitted = {cup.material for cup in told.cups or ()}
    softest = next((material for material in SOFTEST_FIRST if material in fitted), None)
    made.word("cause.softest_cup", softest, cups, why="no earlier cup of known material is told of")


def _temperatures(case: Case, book: Rulebook, log: MeasuredLog, made: Collector) -> None:
    frame = case.bench.frame_temperature
    if frame is None:
        made.unknown("evidence.temperature_off", "the frame's temperature was not written down")
        made.unknown("evidence.temperature_gap", "the frame's temperature was not written down")
        return
    spread = scalar_spread(frame, "temperature", case, book)
    noted = log.scalar(("bench", "frame_temperature"), "frame temperature", frame, "degC", spread)
    half = spread.u * COVERAGE
    off = abs(frame.value - REFERENCE)
    made.between("evidence.temperature_off", off, max(0.0, off - half), off + half, noted, assumed=spread.assumed)
    others = _other_temperatures(case)
    gap = max((abs(frame.value - each) for each in others), default=0.0)
    made.between("evidence.temperature_gap", gap, max(0.0, gap - half), gap + half, noted, assumed=spread.assumed)


def _other_temperatures(case: Case) -> list[float]:
    """Return the stated temperatures of instruments and rings; what is not stated lay with the frame."""
    instruments = case.bench.instruments
    stated = [each.temperature for each in instruments]
    stated += [each.ring.temperature for each in instruments if each.ring]
    return [each.value for each in stated if each is not None]
