"""The one check that flipped between two decisions on the same frame."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from math import inf
from typing import NamedTuple

from recommender.deciding.decide import Decision
from recommender.deciding.milder import Change
from recommender.deciding.runs import Run, every_run
from recommender.deriving.derived import SIDES
from recommender.logic.evaluate import Check, checks_of
from recommender.logic.outcome import Outcome

STRICTEST_FIRST = ("stops_work", "rules_out", "asks_first", "advises_against", "supports")
WEIGHT = {"fails": 0, "undecided": 1, "holds": 2}


class Flip(NamedTuple):
    """A check of a rule that came to something else, with its margin before and after in the unit of the fact.

    `before` or `after` is `no such rule` where one of the books does not have the rule; margins are None for words
    and unknown facts.
    """

    rule: str
    subject: str
    fact: str
    unit: str
    before: str
    after: str
    margin_before: float | None
    margin_after: float | None
    wanted: str


class Pair(NamedTuple):
    """A rule on one subject, run by each of two books; None where a book has no such rule."""

    rule: str
    before: Run | None
    after: Run | None

    @property
    def run(self) -> Run:
        """Return the run of the newer book, else that of the older."""
        run = self.after or self.before
        if run is None:
            raise ValueError("neither book ran the rule")
        return run

    @property
    def step(self) -> int:
        """Return how far the outcome moved towards holding; positive is stricter, whatever the stance."""
        before, after = (0 if run is None else WEIGHT[run.outcome] for run in (self.before, self.after))
        return before - after if self.run.rule.stance == "supports" else after - before


def moved_runs(
    before: Decision, after: Decision, in_one_book: Collection[str], only: Collection[str] | None = None
) -> tuple[Pair, ...]:
    """Return every rule on a subject both decisions have that came to something else in them.

    Only options both books had are looked at: what a rule says of a part that is new explains no change of the others.
    A rule only one of them ran counts when it is `in_one_book` (ids of rules). `only` are the ids of the rules that can
    have moved, None for all.
    """
    one, two = ({run.id: run for run in every_run(each.runs) if only is None or run.rule.id in only}
                for each in (before, after))  # fmt: skip
    subjects = {run.subject for run in every_run(before.runs)} & {run.subject for run in every_run(after.runs)}
    return tuple(each for each in _pairs(one, two, in_one_book) if each.run.subject in subjects)


def flip_of(change: Change, moved: Iterable[Pair], chosen: Collection[str]) -> Flip | None:
    """Return the check behind a change: of the rule about it that moved its way, strictest first, the closest one.

    Rules on options of the remedies `chosen` by either book come before those on options nobody chose. None when no
    rule moved that way.
    """
    pairs = [each for each in moved if _about(each.run, change) and _moves(each, change)]
    if not pairs:
        return None
    wanted = {change.before, change.after} if change.where in SIDES and "held" not in change[2:4] else chosen
    return min(_flips(min(pairs, key=lambda each: _rank(each, wanted))), key=_closeness)


def _rank(pair: Pair, chosen: Collection[str]) -> tuple[bool, int, int, str]:
    _, _, remedy = pair.run.subject.partition("/")
    aside = bool(remedy) and remedy.partition("/")[0] not in chosen
    return (aside, STRICTEST_FIRST.index(pair.run.rule.stance), -abs(pair.step), pair.rule)


def _pairs(one: Mapping[str, Run], two: Mapping[str, Run], in_one_book: Collection[str]) -> Iterator[Pair]:
    for name in sorted({*one, *two}):
        pair = Pair(pair_rule(name), one.get(name), two.get(name))
        if pair.step and (None not in pair[1:] or pair.rule in in_one_book):
            yield pair


def _moves(pair: Pair, change: Change) -> bool:
    return change.direction == "other_remedy" or (pair.step > 0) == (change.direction == "stricter")


def pair_rule(run_id: str) -> str:
    """Return the id of the rule of a run."""
    return run_id.removeprefix("rule/").partition("@")[0]


def _about(run: Run, change: Change) -> bool:
    if run.rule.about.kind == "cause":
        return False
    if change.where in ("frame", "stops_work") or "held" in (change.before, change.after):
        return True
    return run.subject == "frame" or run.subject == change.where or run.subject.startswith(f"{change.where}/") or (
        run.subject == change.where.partition("/")[0]
    )


def _flips(pair: Pair) -> list[Flip]:
    before, after = (() if run is None else tuple(checks_of(run.result)) for run in (pair.before, pair.after))
    if len(before) != len(after) or not before:
        return [_flip(pair, None, check) if pair.before is None else _flip(pair, check, None)
                for check in after or before]  # fmt: skip
    found = [(one, two) for one, two in zip(before, after, strict=True) if one.outcome != two.outcome]
    return [_flip(pair, one, two) for one, two in found or zip(before, after, strict=True)]


def _flip(pair: Pair, before: Check | None, after: Check | None) -> Flip:
    check = after or before
    if check is None:
        raise ValueError("a flip needs a check")
    wanted = " and ".join(each.shown for each in check.leaf.wanted)
    return Flip(
        pair.rule, pair.run.subject, check.leaf.fact.id, check.leaf.fact.unit, _outcome(before), _outcome(after),
        None if before is None else before.margin, None if after is None else after.margin,
        f"{check.leaf.op.replace('_', ' ')} {wanted}",
    )  # fmt: skip


def _outcome(check: Check | None) -> Outcome | str:
    return "no such rule" if check is None else check.outcome


def _closeness(flip: Flip) -> tuple[float, str]:
    margins = [abs(each) for each in (flip.margin_before, flip.margin_after) if each is not None]
    return (min(margins, default=inf), flip.fact)
