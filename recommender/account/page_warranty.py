"""The warranty desk's findings: what the frame is, under which conditions and with what it was measured."""

from collections.abc import Sequence
from typing import NamedTuple

from recommender.account.page_matter import Matter, Row, listed_words, row, rows, side_title
from recommender.account.page_told import Told, fact
from recommender.account.standard_text import answers
from recommender.account.words import CONFORMITY, SIDES, readable, stop
from recommender.bench.frame import Opening
from recommender.bench.history import FittedCup
from recommender.bench.quantities import MeasuredLength
from recommender.deciding.answer import SideShown
from recommender.facts.catalogue import CATALOGUE
from recommender.rulebook.book import Standard

SIZES = {
    "bore.mean_diameter": "Mean diameter",
    "bore.inscribed_diameter": "Largest circle that enters",
    "bore.widest_diameter": "Smallest circle around it",
    "bore.ovality": "Out of round (oval)",
    "bore.lobing": "Three-lobed form",
    "bore.mouth_diameter": "Diameter at the face",
    "bore.inner_diameter": "Diameter at the inner end",
    "bore.taper": "Taper over the seat",
}
UNKNOWN = "unknown"


class SizeRow(NamedTuple):
    """One size of the bores, a value for each side, and the formula it was made by."""

    name: str
    values: Sequence[Told]
    made_by: Told


class Proof(NamedTuple):
    """What is proved of one side against the standard."""

    side: str
    answers: dict[str, Told]


class LimitsOfStandard(NamedTuple):
    """The standard's own limits of the bore, and where they were seen."""

    name: Told
    nominal: Told
    lower: Told | str
    upper: Told | str
    source: Told


def identity(matter: Matter) -> list[Row]:
    """Return which frame this is, in whose words."""
    case, known = matter.case, matter.case.identity
    return [
        row("Case", Told(case.case, "case:case")),
        row("Title", Told(case.title, "case:title")),
        row("Received", Told(case.received.isoformat(), "case:received")),
        row("Follows", Told(case.follows, "case:follows") if case.follows else "no earlier round"),
        *(row(label, _given(getattr(known, key), f"case:identity.{key}")) for key, label in IDENTITY.items()),
        row("Frame", Told(readable(case.frame.material), "case:frame.material")),
        row("Insert", Told(_insert(matter), "case:frame.insert")),
        row("Shell width", _length(case.frame.shell_width, "case:frame.shell_width")),
        row("Wall", _length(case.frame.wall, "case:frame.wall")),
        row("Spindle", _length(case.frame.spindle, "case:frame.spindle")),
        row("Openings", *_openings(case.frame.openings)),
        *rows([row("Notes", Told(known.notes, "case:identity.notes") if known.notes else None)]),
    ]


IDENTITY = {
    "serial": "Serial number", "model_year": "Model year", "owner": "Owner", "shop": "Shop", "engineer": "Measured by"
}  # fmt: skip


def history(matter: Matter) -> list[Row]:
    """Return what was told of the frame, not measured here."""
    known = matter.case.history
    return rows([
        row("Symptoms", Told(listed_words(known.symptoms) or "none told", "case:history.symptoms")),
        row("First reported", _text(known.first_complaint, "first_complaint")),
        row("Ruled out elsewhere", Told(listed_words(known.ruled_out_elsewhere) or "nothing", "case:history")),
        row("Crash", Told(readable(known.crash), "case:history.crash")),
        row("Earlier cups", *_cups(known.cups)),
        row("Warranty", Told(readable(known.warranty), "case:history.warranty")),
        row("Agreed in writing", Told(listed_words(known.consent) or "nothing", "case:history.consent")),
        row("Distance", Told(f"{known.km:g} km", "case:history.km") if known.km else None),
        row("Rider", Told(f"{known.rider_mass:g} kg", "case:history.rider_mass") if known.rider_mass else None),
        *(row(label, _text(getattr(known, key), key)) for key, label in TOLD.items()),
    ])  # fmt: skip


TOLD = {
    "use": "Use", "washing": "Washing", "compound": "Found in the bores", "repairs": "Earlier repairs", "notes": "Notes"
}  # fmt: skip


def size_rows(matter: Matter) -> list[SizeRow]:
    """Return size and form of both bores with their 95 % intervals and how they were made."""
    return [_size_row(matter, key, name) for key, name in SIZES.items()]


def proofs(matter: Matter) -> list[Proof]:
    """Return what is proved of each side against the standard."""
    return [
        Proof(side_title(name), {what: _proof(side, word) for what, word in answers(side).items()})
        for name, side, _ in matter.sides()
    ]


def limits_of_standard(matter: Matter) -> LimitsOfStandard | None:
    """Return the limits of the standard the frame is taken to follow, None when the book does not know it."""
    known = matter.standard
    if known is None:
        return None
    name, source = (Told(each, f"book:{known.id}") for each in (known.title, str(known.source)))
    nominal, lower, upper = (_size(each, known) for each in (known.bore.nominal, known.bore.lower, known.bore.upper))
    return LimitsOfStandard(name, nominal, lower, upper, source)


def _size(value: float | None, standard: Standard) -> Told:
    return Told("none published" if value is None else f"{value:.3f} mm", f"book:{standard.id}")


def _size_row(matter: Matter, key: str, name: str) -> SizeRow:
    values = [fact(side.facts.get(key), f"{where}/{key}") for where, side, _ in matter.sides()]
    known = CATALOGUE[key]
    source = "" if known.source == "definition" else f"; {known.source}"
    return SizeRow(name, values, Told(f"{known.made_by}{source}", f"fact:{key}"))


def _proof(side: SideShown, word: str) -> Told:
    return Told(CONFORMITY.get(word, readable(word)), side.node)


def _given(value: object, path: str) -> Told:
    return Told(UNKNOWN if value is None else str(value), path)


def _length(value: MeasuredLength | None, path: str) -> Told:
    return Told(UNKNOWN if value is None else f"{value.value:g} mm", path)


def _text(value: str, key: str) -> Told | None:
    return Told(value, f"case:history.{key}") if value else None


def _insert(matter: Matter) -> str:
    frame = matter.case.frame
    return f"{readable(frame.insert)}, {readable(frame.insert_material)}" if frame.insert == "bonded" else frame.insert


def _openings(openings: tuple[Opening, ...] | None) -> list[Told]:
    if not openings:
        return [Told(UNKNOWN if openings is None else "none noted", "case:frame.openings")]
    return [Told(_opening(each), f"case:frame.openings.{count}") for count, each in enumerate(openings)]


def _opening(opening: Opening) -> str:
    side = SIDES.get(opening.side or "", "side unknown")
    size = f"{opening.size.value:g} mm" if opening.size else "size unknown"
    ligament = f"{opening.ligament.value:g} mm" if opening.ligament else "unknown"
    return f"{readable(opening.kind)}, {side}, {size}, ligament {ligament}"


def _cups(cups: tuple[FittedCup, ...] | None) -> list[Told]:
    if not cups:
        return [Told(UNKNOWN if cups is None else "none", "case:history.cups")]
    return [Told(_cup(each), f"case:history.cups.{count}") for count, each in enumerate(cups)]


def _cup(cup: FittedCup) -> str:
    told = [
        readable(cup.material),
        f"fitted {cup.fitted} times" if cup.fitted is not None else "",
        f"in for {cup.months} months" if cup.months is not None else "",
        f"outside {cup.od.value:.3f} mm" if cup.od else "",
        SIDES.get(cup.side or "", ""),
        stop(cup.note) if cup.note else "",
    ]
    return ", ".join(filter(None, told))
