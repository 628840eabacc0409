"""What another rule book would have decided: every difference between two books on the same frames."""

from collections.abc import Callable, Iterable, Iterator
from datetime import date
from pathlib import Path
from typing import NamedTuple

from recommender.bench.load import LoadedCase, load_case
from recommender.deciding.decide import Decision, decide, decide_again
from recommender.deciding.milder import Change, Direction, changes
from recommender.deriving.by_grid import answered
from recommender.deriving.derive import derive
from recommender.deriving.derived import Derived
from recommender.facts.value import FactValue
from recommender.ground.flaw import Flaw, Flawed
from recommender.rulebook.book import Rulebook
from recommender.trials.changed_rules import Sifted, regridded, same_formulas, sifted
from recommender.trials.flips import Flip, flip_of, moved_runs
from recommender.trials.run_cases import case_files
from recommender.trials.standings import standing_of

BookOn = Callable[[date], Rulebook]


class Moved(NamedTuple):
    """One difference in what was decided on a frame, and the check that flipped, None when no rule did."""

    case: str
    change: Change
    flip: Flip | None


class Comparison(NamedTuple):
    """How many frames were looked at, what moved, and those that could not be judged.

    `accepted` are the cases the house acts of the new book accept as milder.
    """

    frames: int
    moved: tuple[Moved, ...]
    unjudged: tuple[tuple[str, tuple[Flaw, ...]], ...]
    accepted: frozenset[str]

    def of(self, direction: Direction) -> tuple[Moved, ...]:
        """Return what moved that way; a turn towards work that cannot be undone stands with the milder ones."""
        milder = direction == "milder"
        return tuple(
            each for each in self.moved
            if each.change.listed_milder == milder and (milder or each.change.direction == direction)
        )  # fmt: skip

    @property
    def unaccepted(self) -> tuple[str, ...]:
        """Return the cases that turned milder without anybody having accepted it, each once."""
        found = (each.case for each in self.of("milder") if each.case not in self.accepted)
        return tuple(dict.fromkeys(found))


class Between:
    """Two books in force on one day, and what differs between them."""

    def __init__(self, old: Rulebook, new: Rulebook) -> None:
        """Find out what differs, once for all frames."""
        self.old, self.new = old, new
        self.same_facts = same_formulas(old, new)
        self._regridded = regridded(old, new)
        self._sifted: Sifted = sifted(old, new)
        self._differing = frozenset(rule.id for book in self._sifted[:2] for rule in book.rules)
        self._in_one_book = {rule.id for rule in old.rules} ^ {rule.id for rule in new.rules}

    @property
    def asked(self) -> frozenset[str]:
        """Return the facts asked by the rules that differ, and by the grids where those differ."""
        rules = frozenset(fact for book in self._sifted[:2] for rule in book.rules for fact in rule.facts)
        grids = (grid for book in (self.old, self.new) for grid in book.grids.values()
                 if grid.answers in self._regridded)  # fmt: skip
        return rules | {fact for grid in grids for fact in (grid.answers, *grid.inputs)}

    def by_both(self, derived: Derived) -> tuple[Derived, Derived]:
        """Return facts as both books see them: where the grids differ, each with its own answers."""
        if not self._regridded:
            return derived, derived
        return answered(derived, self.old, self._regridded), answered(derived, self.new, self._regridded)

    def silent_on(self, derived: Derived) -> bool:
        """Return whether both books come to the same on these facts; those not `asked` do not matter."""
        one, two = self.by_both(derived)
        return (one is two or self._answers(one) == self._answers(two)) and self._sifted.same_on(one)

    def moved(self, case: str, one: Derived, two: Derived) -> tuple[Moved, ...]:
        """Return everything the new book decides otherwise on a frame, from its facts under each of the books."""
        if one is two:
            one, two = self.by_both(one)
        if one is two and self._sifted.same_outcomes(one):
            return ()
        before = decide(one, self.old)
        after = self._again(before, one) if one is two else decide(two, self.new)
        found = changes(standing_of(before, self.old), standing_of(after, self.new))
        if not found:
            return ()
        chosen = {word for each in found for word in (each.before, each.after)}
        pairs = moved_runs(before, after, self._in_one_book, self._differing if one is two else None)
        return tuple(Moved(case, each, flip_of(each, pairs, chosen)) for each in found)

    def _again(self, before: Decision, derived: Derived) -> Decision:
        return decide_again(before, derived, self.new, self._sifted.new, self._differing)


    def _answers(self, derived: Derived) -> list[dict[str, FactValue | None]]:
        scopes = [derived.frame]
        for side in derived.sides.values():
            scopes += [side.facts, *(option.facts for option in side.options)]
        return [{name: facts.get(name) for name in self._regridded} for facts in scopes]


class Pairs:
    """Two books on any day; what differs between them is found out once for each pair that is in force."""

    def __init__(self, old: BookOn, new: BookOn) -> None:
        """Begin with nothing looked at."""
        self._old, self._new = old, new
        self._kept: dict[tuple[int, int], Between] = {}

    def on(self, day: date) -> Between:
        """Return the pair in force on a day."""
        old, new = self._old(day), self._new(day)
        key = (id(old), id(new))  # the pair keeps both books, so their ids stay their own
        if key not in self._kept:
            self._kept[key] = Between(old, new)
        return self._kept[key]

    @property
    def kept(self) -> tuple[Between, ...]:
        """Return every pair that was in force on one of the days."""
        return tuple(self._kept.values())


def compare_cases(paths: Iterable[Path], old: BookOn, new: BookOn) -> Comparison:
    """Return what differs on every case in these files and folders; each is judged by the books of its day."""
    pairs = Pairs(old, new)
    found: list[tuple[str, tuple[Moved, ...] | tuple[Flaw, ...], bool]] = []
    for path in _files(paths):
        try:
            loaded = load_case(path)
            found.append((loaded.case.case, _of_case(loaded, pairs.on(loaded.case.received)), True))
        except Flawed as refused:
            found.append((str(path), refused.flaws, False))
    return gathered(found, pairs.kept)


def joined(parts: Iterable[Comparison]) -> Comparison:
    """Return several comparisons of the same two books as one."""
    kept = tuple(parts)
    return Comparison(
        sum(each.frames for each in kept),
        tuple(moved for each in kept for moved in each.moved),
        tuple(left for each in kept for left in each.unjudged),
        frozenset(name for each in kept for name in each.accepted),
    )


def gathered(
    found: Iterable[tuple[str, tuple[Moved, ...] | tuple[Flaw, ...], bool]], pairs: Iterable[Between]
) -> Comparison:
    """Return the comparison of all frames."""
    kept = tuple(found)
    moved = tuple(each for _, those, judged in kept if judged for each in those if isinstance(each, Moved))
    unjudged = tuple((name, tuple(each for each in those if isinstance(each, Flaw)))
                     for name, those, judged in kept if not judged)  # fmt: skip
    accepted = (name for between in pairs for act in between.new.house_changes for name in act.accepts)
    return Comparison(len(kept), moved, unjudged, frozenset(accepted))


def _of_case(loaded: LoadedCase, between: Between) -> tuple[Moved, ...]:
    one = derive(loaded, between.old)
    two = one if between.same_facts else derive(loaded, between.new)
    return between.moved(loaded.case.case, one, two)


def _files(paths: Iterable[Path]) -> Iterator[Path]:
    for path in paths:
        yield from case_files(path) if path.is_dir() else (path,)
