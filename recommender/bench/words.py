"""Every word of a case that only the rule book can judge, with its path."""

from collections.abc import Iterator
from typing import NamedTuple

from recommender.bench.case import Case
from recommender.bench.damage import Damage
from recommender.bench.history import History
from recommender.bench.parts import Part
from recommender.bench.readings import Path
from recommender.bench.sides import Side

KEY = "[key]"
NEVER_UNKNOWN = frozenset({"symptoms", "signs", "instruments", "elsewhere"})


class WordUsed(NamedTuple):
    """A word, the list it must stand in, and its path; a path that ends in `[key]` means the key itself."""

    list_name: str
    word: str
    path: Path


def words_used(case: Case) -> Iterator[WordUsed]:
    """Yield every word of the case that the rule book's word lists must know.

    `unknown` is left out where it is always legal, so that a list need not hold it. Words that are not in the
    file but filled in as `unknown` are therefore never yielded.
    """
    for used in _all_words(case):
        if used.word != "unknown" or used.list_name in NEVER_UNKNOWN:
            yield used


def remedies_named(case: Case) -> Iterator[tuple[str, Path]]:
    """Yield every remedy the owner consented to, with its path."""
    for index, remedy in enumerate(case.history.consent):
        yield remedy, ("history", "consent", index)


def _all_words(case: Case) -> Iterator[WordUsed]:
    frame = case.frame
    yield WordUsed("materials", frame.material, ("frame", "material"))
    yield WordUsed("standards", frame.standard, ("frame", "standard"))
    yield WordUsed("stops", frame.stop, ("frame", "stop"))
    yield WordUsed("inserts", frame.insert, ("frame", "insert"))
    yield WordUsed("materials", frame.insert_material, ("frame", "insert_material"))
    for index, opening in enumerate(frame.openings or ()):
        yield WordUsed("opening_kinds", opening.kind, ("frame", "openings", index, "kind"))
    for index, instrument in enumerate(case.bench.instruments):
        yield WordUsed("instruments", instrument.kind, ("bench", "instruments", index, "kind"))
    if case.alignment is not None:
        yield WordUsed("alignment_methods", case.alignment.method, ("alignment", "method"))
    yield from _history_words(case.history)
    yield from _damage_words(case.damage)
    for name, side in case.sides.items():
        yield from _side_words(side, ("sides", name))
    for index, part in enumerate(case.parts):
        yield from _part_words(part, ("parts", index))


def _history_words(history: History) -> Iterator[WordUsed]:
    for index, symptom in enumerate(history.symptoms):
        yield WordUsed("symptoms", symptom, ("history", "symptoms", index))
    for index, elsewhere in enumerate(history.ruled_out_elsewhere):
        yield WordUsed("elsewhere", elsewhere, ("history", "ruled_out_elsewhere", index))
    yield WordUsed("crash", history.crash, ("history", "crash"))
    yield WordUsed("warranty", history.warranty, ("history", "warranty"))
    for index, cup in enumerate(history.cups or ()):
        yield WordUsed("part_materials", cup.material, ("history", "cups", index, "material"))


def _damage_words(damage: Damage) -> Iterator[WordUsed]:
    for place, ways in damage.looked_at.items():
        yield WordUsed("places", place, ("damage", "looked_at", place, KEY))
        for index, way in enumerate(ways):
            at: Path = ("damage", "looked_at", place)
            yield WordUsed("looks", way, at if len(ways) == 1 else (*at, index))
    for index, sign in enumerate(damage.signs):
        yield WordUsed("signs", sign.sign, ("damage", "signs", index, "sign"))
        yield WordUsed("places", sign.where, ("damage", "signs", index, "where"))


def _side_words(side: Side, path: Path) -> Iterator[WordUsed]:
    state = side.bore_state
    yield WordUsed("cleaned", state.cleaned, (*path, "bore_state", "cleaned"))
    yield WordUsed("coatings", state.coating, (*path, "bore_state", "coating"))
    yield WordUsed("cut_before", state.cut_before, (*path, "bore_state", "cut_before"))
    yield WordUsed("press_feel", side.press.feel, (*path, "press", "feel"))


def _part_words(part: Part, path: Path) -> Iterator[WordUsed]:
    yield WordUsed("parts", part.part, (*path, "part"))
    yield WordUsed("clearance_classes", part.clearance_class, (*path, "clearance_class"))
    if part.material is not None:
        yield WordUsed("part_materials", part.material, (*path, "material"))
    if part.coating is not None:
        yield WordUsed("coatings", part.coating, (*path, "coating"))
    if part.bearing is not None:
        yield WordUsed("parts", part.bearing.part, (*path, "bearing", "part"))
        yield WordUsed(
            "clearance_classes", part.bearing.clearance_class, (*path, "bearing", "clearance_class")
        )
