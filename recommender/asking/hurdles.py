"""What still stands between an option and being cleared: each check, and how far its number has to move."""

from collections.abc import Iterator
from typing import NamedTuple

from recommender.deciding.contest import excused, holding, not_failing, open_runs
from recommender.deciding.options import OptionResult, RemedyResult
from recommender.deciding.runs import Run
from recommender.logic.conditions import NUMBER_OPS
from recommender.logic.evaluate import Check, GroupResult, Result
from recommender.logic.margins import interval

DOWN = ("below", "at_most")


class Hurdle(NamedTuple):
    """One check in the way and the rule that asks it.

    `move` is the least change of its number, in its unit and signed; None for what is no number or cannot move so.
    """

    check: Check
    rule: str
    move: float | None

    @property
    def fact(self) -> str:
        """Return the fact the check asks."""
        return self.check.leaf.fact.id


def closest(result: RemedyResult) -> OptionResult | None:
    """Return the option of a remedy that has the fewest hurdles, None where it has no option."""
    return min(result.options, key=lambda each: _farness(hurdles(each)), default=None)


def hurdles(option: OptionResult) -> tuple[Hurdle, ...]:
    """Return every check that keeps an option from being cleared; none when nothing does."""
    return tuple(_hurdles(option))


def _hurdles(option: OptionResult) -> Iterator[Hurdle]:
    bars = [run for run in option.runs if run.rule.stance == "rules_out" and not excused(run)]
    for run in (*bars, *not_failing(option.runs, "asks_first")):
        yield from _to(run.result, run, holds=False)
    if not holding(option.runs, "supports"):
        reasons = [run for run in option.runs if run.rule.stance == "supports"]
        wanted = [run for run in open_runs(option.runs) if run in reasons] or reasons
        nearest = min((tuple(_to(run.result, run, holds=True)) for run in wanted), key=_farness, default=())
        yield from nearest


def _farness(found: tuple[Hurdle, ...]) -> tuple[int, int, float]:
    """Return how far away an option is: what no number can move first, then how many, then the largest move."""
    fixed = sum(each.move is None and each.check.outcome != "undecided" for each in found)
    return fixed, len(found), max((abs(each.move) for each in found if each.move is not None), default=0.0)


def _to(result: Result, run: Run, holds: bool) -> Iterator[Hurdle]:
    """Yield what has to change for a result to hold, or to fail; of parts of which one is enough, the nearest."""
    if result.outcome == ("holds" if holds else "fails"):
        return
    if isinstance(result, GroupResult):
        yield from _through(result, run, holds)
    else:
        yield Hurdle(result, run.rule.id, _move(result, holds))


def _through(group: GroupResult, run: Run, holds: bool) -> Iterator[Hurdle]:
    wanted = holds if group.kind != "none_of" else not holds
    all_of_them = wanted if group.kind == "every" else not wanted
    parts = [tuple(_to(part, run, wanted)) for part in group.parts]
    if all_of_them:
        for each in parts:
            yield from each
        return
    yield from min(filter(None, parts), key=_farness, default=())


def _move(check: Check, holds: bool) -> float | None:
    """Return the least signed change of a number that makes its check hold, or fail, with its whole interval."""
    found = interval(check.found) if check.leaf.op in NUMBER_OPS else None
    if found is None:
        return None
    limits = [float(each.value) for each in check.leaf.wanted]
    over = [limit - found.least for limit in limits]
    under = [limit - found.most for limit in limits]
    if check.leaf.op == "between":
        return _between(over[0], under[1]) if holds else min(under[0], over[1], key=abs)
    return over[0] if (check.leaf.op in DOWN) != holds else under[0]


def _between(least: float, most: float) -> float | None:
    """Return the change closest to none from `least` to `most`; None where the interval is too wide for the limits."""
    return None if least > most else min(max(0.0, least), most)
