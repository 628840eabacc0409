"""For a case in progress: which readings to take next, and how likely they settle what is open."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Literal, NamedTuple

from recommender.asking.bench_of import PlannedReading, PlannedTurn
from recommender.asking.candidates import candidates, sheet_of_side
from recommender.asking.joint import joint
from recommender.asking.likeliest import likeliest
from recommender.asking.outlook import Outlook, doubt_left, outlook
from recommender.asking.plan import plan_for
from recommender.asking.promise import driver_of
from recommender.asking.rerun import Open, OpenCheck, decided, open_checks, open_questions, with_gauge, with_readings
from recommender.bench.load import LoadedCase
from recommender.deriving.derived import SIDES, SideName
from recommender.deriving.draws_of import bore_scores
from recommender.metrology.agreement import agreement
from recommender.metrology.draws import draw
from recommender.metrology.model import posterior
from recommender.metrology.rows import SIZE
from recommender.rulebook.book import Rulebook

RERUNS = 8
DISAGREE = "evidence.fits_together"
BOUND = "evidence.ovality_bound"
Kind = Literal["repeat", "plan", "reading", "go_plug", "other"]
ORDER: tuple[Kind, ...] = ("repeat", "plan", "reading", "go_plug", "other")


class Closes(NamedTuple):
    """A question and how often it is closed; None where that cannot be told before."""

    question: Open
    share: float | None


class NextStep(NamedTuple):
    """One thing to do next, and what it closes, the likeliest first.

    Shares are those of equally likely outcomes (`reruns` of them) for which the whole pipeline, run again, no longer
    asks the question. `readings` are taken together, in this order; `size` (mm) is that of a plug. `left` is the doubt
    left in the size or form the step is for, as a share of the doubt now. `full_turns` follow the readings of a plan.
    """

    kind: Kind
    side: SideName | None
    closes: tuple[Closes, ...]
    readings: tuple[PlannedReading, ...] = ()
    size: float | None = None
    left: float | None = None
    reruns: int = 0
    full_turns: tuple[PlannedTurn, ...] = ()

    @property
    def share(self) -> float:
        """Return how often it closes the question it is likeliest to close, 0 where that is not known."""
        return max((each.share or 0.0 for each in self.closes), default=0.0)


def next_readings(loaded: LoadedCase, book: Rulebook) -> tuple[NextStep, ...]:
    """Return what to do next, the likeliest to close an open question first; nothing where nothing is open.

    Every open question of the advice has a step; those no reading with the instruments of the case can close come
    last, as the advice puts them. Raises Flawed as deriving does.
    """
    decision = decided(loaded, book)
    asked, checks = open_questions(decision, book), open_checks(decision)
    steps = [step for side in SIDES for step in _Side(loaded, side, asked, checks, book).steps()]
    answered = {each.question for step in steps for each in step.closes}
    rest = [NextStep("other", each.side, (Closes(each, None),)) for each in asked if each not in answered]
    return (*sorted(steps, key=_rank), *rest)


def still_open(loaded: LoadedCase, book: Rulebook) -> frozenset[tuple[str, SideName | None]]:
    """Return fact and side of every question a case still asks."""
    return frozenset((each.fact, each.side) for each in open_questions(decided(loaded, book), book))


def _rank(step: NextStep) -> tuple[object, ...]:
    first = step.kind not in ("repeat", "plan")
    return first, -step.share, len(step.readings), step.left or 0.0, ORDER.index(step.kind), step.side, step.readings


class _Side:
    """Looks for what to do next on one side."""

    def __init__(
        self, loaded: LoadedCase, side: SideName, asked: Sequence[Open], checks: Sequence[OpenCheck], book: Rulebook
    ) -> None:
        self.loaded, self.side, self.book = loaded, side, book
        self.asked = [each for each in asked if each.side == side]
        self.checks = {each.fact: each for each in checks if each.side == side}
        self.sheet = sheet_of_side(loaded, side, book)

    def steps(self) -> Iterator[NextStep]:
        """Yield the steps of the side, those for one and the same set of readings only once."""
        if not self.asked:
            return
        if not self.sheet.was_read:
            yield from self._from_plan()
            return
        yield from self._repeat()
        for ahead, left in self._outlooks():
            yield from self._rerun(ahead, left)
        yield from self._plug()

    def _from_plan(self) -> Iterator[NextStep]:
        """Yield the plan for a side of which nothing was read."""
        frame, about = self.loaded.case.frame, [each for each in self.asked if each.fact.startswith("evidence.")]
        try:
            plan = plan_for(frame.standard, frame.material, self.loaded.case.bench.instruments, self.book)
        except ValueError:
            return
        if about:
            yield NextStep("plan", self.side, tuple(Closes(each, None) for each in about), plan.readings,
                           full_turns=plan.full_turns)

    def _repeat(self) -> Iterator[NextStep]:
        """Yield the reading that stands out; what it will show is not told by readings that disagree."""
        about = [each for each in self.asked if each.fact == DISAGREE]
        worst = agreement(self.sheet).worst
        if about and worst is not None and worst[0] < len(self.sheet.readings):
            odd = self.sheet.readings[worst[0]]
            again = PlannedReading(odd.instrument, odd.depth or 0.0, odd.turn or 0.0)
            yield NextStep("repeat", self.side, tuple(Closes(each, None) for each in about), (again,))

    def _outlooks(self) -> list[tuple[Outlook, float]]:
        """Return the readings that promise most for each question, with the doubt they leave."""
        possible = candidates(self.loaded, self.side, self.sheet, float(posterior(self.sheet).mean[SIZE]), self.book)
        if not possible:
            return []
        now = outlook(joint(self.sheet, [each.reading for each in possible]))
        found: dict[tuple[PlannedReading, ...], tuple[Outlook, float]] = {}
        for question in self.asked:
            check = self.checks.get(question.fact)
            ahead = None if check is None else likeliest(check, self.sheet, now, possible)
            if check is not None and ahead is not None:
                field = driver_of(check)
                assert field is not None, "only such checks are promising"
                found.setdefault(_planned(ahead), (ahead, doubt_left(field, ahead.stages[0], ahead.after)))
        return list(found.values())

    def _rerun(self, ahead: Outlook, left: float) -> Iterator[NextStep]:
        """Yield the step of some readings with what they close, by the whole pipeline."""
        closed = dict.fromkeys(self.asked, 0)
        for outcome in ahead.outcomes(RERUNS):
            rows = [(each.reading.instrument, each.depth, each.turn, each.shown(value))
                    for each, value in zip(ahead.readings, outcome.values, strict=True)]
            still = still_open(with_readings(self.loaded, self.side, rows), self.book)
            for each in self.asked:
                closed[each] += (each.fact, each.side) not in still
        yield from self._closing({each: count / RERUNS for each, count in closed.items()},
                                 NextStep("reading", self.side, (), _planned(ahead), None, left, RERUNS))

    def _plug(self) -> Iterator[NextStep]:
        """Yield a go plug of the standard's lower limit where ovality is not bounded and none was tried."""
        standard = self.book.standards.get(self.loaded.case.frame.standard)
        size = standard.bore.lower if standard is not None and standard.bore is not None else None
        tried = any(gauge.kind == "go" for gauge in self.sheet.gauges)
        if size is None or tried or not any(each.fact == BOUND for each in self.asked):
            return
        made = draw(posterior(self.sheet), self.sheet, bore_scores())
        enters = float(made.weights @ (made.inscribed > size))
        closed = dict.fromkeys(self.asked, 0.0)
        for went_in, chance in ((True, enters), (False, 1 - enters)):
            still = still_open(with_gauge(self.loaded, self.side, size, enters=went_in), self.book)
            for each in self.asked:
                closed[each] += chance * ((each.fact, each.side) not in still)
        yield from self._closing(closed, NextStep("go_plug", self.side, (), size=size, reruns=2))

    def _closing(self, closed: Mapping[Open, float], step: NextStep) -> Iterator[NextStep]:
        """Yield the step if it may close anything."""
        likely = sorted(((share, each) for each, share in closed.items() if share > 0), key=lambda pair: -pair[0])
        if likely:
            yield step._replace(closes=tuple(Closes(each, round(share, 4)) for share, each in likely))


def _planned(ahead: Outlook) -> tuple[PlannedReading, ...]:
    return tuple(PlannedReading(each.reading.instrument, each.depth, each.turn) for each in ahead.readings)
