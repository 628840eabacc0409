"""The nearest change: what would have to be different of a bore, a part or the knowledge for a lost remedy to clear.

Every change is found and verified by judging the changed case again; one step less of it does not clear the remedy.
"""

from collections.abc import Callable, Iterator
from typing import Literal, NamedTuple

from recommender.asking.answers import ANSWERS, Asked
from recommender.asking.bench_of import PlannedReading
from recommender.asking.candidates import candidates, sheet_of_side
from recommender.asking.changed_case import bore_moved, bore_rounder, bore_tapered, part_in_hand, part_of
from recommender.asking.hurdles import Hurdle, closest, hurdles
from recommender.asking.joint import joint
from recommender.asking.likeliest import likeliest
from recommender.asking.one_remedy import one_remedy
from recommender.asking.outlook import outlook
from recommender.asking.promise import driver_of
from recommender.asking.rerun import OpenCheck, with_readings
from recommender.asking.smallest import Search, Step, Tried
from recommender.bench.load import LoadedCase
from recommender.deciding.answer import Advice
from recommender.deciding.contest import CLEARED
from recommender.deciding.options import OptionResult, RemedyResult
from recommender.deriving.derived import SideName
from recommender.metrology.model import posterior
from recommender.metrology.rows import SIZE
from recommender.rulebook.book import Rulebook

Kind = Literal["reading", "answer", "part", "bore", "rounder", "taper"]
UM = 1000.0
MOST_UM = 250
ROUND = ("bore.ovality", "bore.lobing")
ALONG = ("bore.taper", "make.land_length", "make.step")
BY_SIZE = ("fit.", "compound.", "ordinary.", "make.", "cut.", "strain.", "bearing.", "sleeve.", "bond.", "part.od")
IN_HAND = "case:parts."
AS_IT_IS = ("press_as_is", "press_with_compound")


class Change(NamedTuple):
    """One change that would clear a remedy; `um` signed: larger, more taper; for `rounder` what the oval loses.

    `od` is the diameter (mm) of a part of this kind, `in_hand` whether that part lies there; `answers` are facts with
    the word that would do; `readings` with what they would have to show, in mm, which is what is now expected.
    """

    kind: Kind
    um: float = 0.0
    part: str = ""
    od: float | None = None
    in_hand: bool = False
    answers: tuple[tuple[str, str], ...] = ()
    readings: tuple[PlannedReading, ...] = ()
    shows: tuple[float, ...] = ()
    judged: int = 1


class Lost(NamedTuple):
    """A remedy that lost on a side, each change that alone would clear it, and the rules no such change gets past."""

    side: SideName
    remedy: str
    title: str
    changes: tuple[Change, ...]
    barred_by: tuple[str, ...]


def lost_remedies(
    loaded: LoadedCase, advice: Advice, book: Rulebook, side: str | None = None, remedy: str | None = None
) -> tuple[Lost, ...]:
    """Return what would clear each remedy that lost, of both sides or one, of all remedies or one.

    Nothing where damage stops the frame: no remedy is weighed against it. Raises Flawed as deriving does.
    """
    if advice.frame.damage:
        return ()
    asked = [
        (name, each.id) for name, shown in advice.sides.items() if side in (None, name)
        for each in shown.remedies if remedy in (None, each.id) and each.options and each.outcome not in CLEARED
    ]  # fmt: skip
    found = (nearest_changes(loaded, name, each, book) for name, each in asked)
    return tuple(each for each in found if each is not None)


def nearest_changes(loaded: LoadedCase, side: SideName, remedy: str, book: Rulebook) -> Lost | None:
    """Return what would clear a remedy on a side; None where it is cleared, or no part could be used for it.

    The case is judged again for every change, for this remedy on this side. Raises Flawed as deriving does.
    """
    result = one_remedy(loaded, side, remedy, book)
    option = closest(result)
    if result.outcome in CLEARED or option is None:
        return None
    return _Remedy(loaded, side, result, option, book).lost()


class _Tried(NamedTuple):
    """A part of a diameter (mm), and what stands in the way of one that is larger by some um."""

    start: float
    left: Tried


class _Remedy:
    """Looks for the changes that clear one option of a remedy on one side."""

    def __init__(
        self, loaded: LoadedCase, side: SideName, result: RemedyResult, option: OptionResult, book: Rulebook
    ) -> None:
        self.loaded, self.side, self.book = loaded, side, book
        self.remedy, self.option = result.remedy, option
        self.here = hurdles(option)
        self.facts = {each.fact for each in self.here}

    def lost(self) -> Lost:
        changes = tuple(self._changes())
        firm = [each for each in self.here if each.move is None and each.check.found.known]
        rules = () if changes else tuple(dict.fromkeys(each.rule for each in firm or self.here))
        titles = {each.id: each.title for each in self.book.rules}
        return Lost(self.side, self.remedy.id, self.remedy.title, changes, tuple(titles[each] for each in rules))

    def _changes(self) -> Iterator[Change]:
        if any(each.move is None and each.check.found.known for each in self.here):
            return
        yield from self._answers()
        yield from self._readings()
        if all(each.move is not None for each in self.here):
            yield from self._steps()
        if self.remedy.id in AS_IT_IS:
            yield from self._part()

    def _answers(self) -> Iterator[Change]:
        """Yield the answers to everything unknown, where they alone clear it."""
        open_facts = [each for each in self.facts if each in ANSWERS]
        unknown = {each.fact for each in self.here if not each.check.found.known}
        changed = self.loaded
        for fact in sorted(unknown & set(open_facts)):
            changed = ANSWERS[fact][1](Asked(changed, self.side, self.option, self.book))
        if unknown and unknown <= set(open_facts) and not self._left(changed):
            yield Change("answer", answers=tuple((fact, ANSWERS[fact][0]) for fact in sorted(unknown)))

    def _readings(self) -> Iterator[Change]:
        """Yield the readings that clear it if they show what is now expected."""
        close = [each for each in self.here if each.check.outcome == "undecided" and each.check.found.known]
        checks = [OpenCheck(self.side, each.fact, each.check.found, _limits(each)) for each in close]
        check = next((each for each in checks if driver_of(each) is not None), None)
        sheet = sheet_of_side(self.loaded, self.side, self.book)
        if check is None or len(close) < len(self.here) or not (sheet.readings or sheet.spans):
            return
        possible = candidates(self.loaded, self.side, sheet, float(posterior(sheet).mean[SIZE]), self.book)
        ahead = likeliest(check, sheet, outlook(joint(sheet, [each.reading for each in possible])), possible)
        if ahead is None:
            return
        rows = [(each.reading.instrument, each.depth, each.turn, each.shown(known.predicted(each.reading)[0]))
                for each, known in zip(ahead.readings, ahead.stages, strict=False)]
        if not self._left(with_readings(self.loaded, self.side, rows)):
            yield Change("reading", readings=tuple(PlannedReading(*row[:3]) for row in rows),
                         shows=tuple(row[3] for row in rows))

    def _steps(self) -> Iterator[Change]:
        oval = self._oval()
        if any(each.startswith(BY_SIZE) for each in self.facts):
            yield from self._found("bore", lambda um: bore_moved(self.loaded, self.side, um), MOST_UM)
        if self.facts & set(ROUND) and oval >= 1:
            yield from self._found("rounder", lambda um: bore_rounder(self.loaded, self.side, um / oval), int(oval))
        if self.facts & set(ALONG):
            way = self._way()
            yield from self._found("taper", lambda um: bore_tapered(self.loaded, self.side, way * um), MOST_UM)

    def _found(self, kind: Kind, changed: Callable[[int], LoadedCase], most: int) -> Iterator[Change]:
        step = Search(lambda count: self._left(changed(count)), self.here, most).smallest()
        if step is not None:
            yield Change(kind, float(step.steps), judged=step.judged)

    def _part(self) -> Iterator[Change]:
        """Yield another diameter of the part: of the one in hand, else of one of its kind that was measured."""
        place = self._place()
        tried = self._another_part() if place is None else self._part_in_hand(place)
        here = tried.left(0)
        step = Search(tried.left, here, MOST_UM).smallest() if here else Step(0, 1)
        if step is not None:
            od = round(tried.start + step.steps / UM, 4)
            part = self.option.option.part_id
            yield Change("part", float(step.steps), part, od, place is not None, judged=step.judged)

    def _part_in_hand(self, place: int) -> "_Tried":
        known = self.loaded.case.parts[place].od
        start = 0.0 if known is None else float(known.value)
        return _Tried(start, lambda um: self._left(part_of(self.loaded, place, start + um / UM)))

    def _another_part(self) -> "_Tried":
        part = self.book.parts[self.option.option.part_id]
        start = part.nominal if part.od is None else round(sum(part.od) / 2, 3)
        label = f"{part.id} (in hand, no. {len(self.loaded.case.parts) + 1})"
        return _Tried(
            start, lambda um: self._left(part_in_hand(self.loaded, self.side, part.id, start + um / UM), label))

    def _place(self) -> int | None:
        """Return where the part of the option stands among the parts in hand, None for one that is not there."""
        known = self.option.option.facts.get("part.od")
        found = [each for each in (known.inputs if known else ()) if each.startswith(IN_HAND) and each.endswith(".od")]
        return int(found[0].split(".")[1]) if found else None

    def _oval(self) -> float:
        return self._value("bore.ovality")

    def _way(self) -> int:
        """Return 1 where the bore opens towards the inner end of its seat, -1 where it closes."""
        return -1 if self._value("bore.inner_diameter") < self._value("bore.mouth_diameter") else 1

    def _value(self, fact: str) -> float:
        found = self.option.runs[0].facts.get(fact) if self.option.runs else None
        return 0.0 if found is None or found.value is None else found.value

    def _left(self, changed: LoadedCase, label: str = "") -> tuple[Hurdle, ...]:
        """Return what still stands in the way of the same option in a changed case."""
        part = label or self.option.option.part
        return hurdles(one_remedy(changed, self.side, self.remedy.id, self.book, part).options[0])


def _limits(hurdle: Hurdle) -> tuple[float, ...]:
    return tuple(float(each.value) for each in hurdle.check.leaf.wanted)
