"""Conditions from files to conditions on facts, with a flaw for everything that cannot be meant."""

from collections.abc import Callable, Mapping

from recommender.facts.catalogue import CATALOGUE
from recommender.facts.fact import Fact
from recommender.ground.flaw import Flaw
from recommender.ground.suggest import did_you_mean
from recommender.logic.conditions import NUMBER_OPS, Condition, Group, Leaf, Op, Operand
from recommender.reading.document import Path
from recommender.rulebook.book import Limit
from recommender.rulebook.gather import Entry, Gathered
from recommender.rulebook.models.conditions import GroupModel, LeafModel
from recommender.rulebook.models.rules import RuleModel
from recommender.rulebook.numbers import Wrong, number_operand
from recommender.rulebook.vocabulary import words_of


class Resolver:
    """Resolves the condition of one rule; what is wrong with it is kept in `flaws`."""

    def __init__(self, entry: Entry[RuleModel], gathered: Gathered, limits: Mapping[str, Limit]) -> None:
        """Take the rule and what its condition may name."""
        self._entry, self._gathered, self._limits = entry, gathered, limits
        self.flaws: list[Flaw] = []

    def condition(self) -> Condition | None:
        """Return the condition, None when a part of it has a flaw."""
        made = self._condition(self._entry.model.holds_if, ("holds_if",))
        return None if self.flaws else made

    def _condition(self, model: LeafModel | GroupModel, path: Path) -> Condition | None:
        if isinstance(model, LeafModel):
            return self._leaf(model, path)
        kind = model.written[0]
        parts = [self._condition(each, (*path, kind, index)) for index, each in enumerate(getattr(model, kind))]
        whole = tuple(part for part in parts if part is not None)
        return Group(kind, whole, self._entry.place(*path, kind, key=True)) if whole else None

    def _leaf(self, model: LeafModel, path: Path) -> Leaf | None:
        fact = CATALOGUE.get(model.fact)
        if fact is None:
            self._wrong(unknown_fact(model.fact), *path, "fact")
            return None
        op = model.written[0]
        if not _suits(op, fact):
            self._wrong(_unsuited(op, fact), *path, op, key=True)
            return None
        given = getattr(model, op)
        several = given if isinstance(given, list) else [given]
        found = [self._operand(each, op, fact) for each in several]
        for index, each in enumerate(found):
            if isinstance(each, Wrong):
                self._wrong(each, *path, op, *((index,) if isinstance(given, list) else ()))
        wanted = tuple(each for each in found if isinstance(each, Operand))
        if op == "between" and len(wanted) == 2 and wanted[0].value > wanted[1].value:  # type: ignore[operator]
            self._wrong(Wrong("between", "the first end is above the second", "Exchange the two."), *path, op)
        return Leaf(fact, op, wanted, self._entry.place(*path))

    def _operand(self, given: object, op: Op, fact: Fact) -> Operand | Wrong:
        if op in NUMBER_OPS:
            return number_operand(given, fact, self._limits)
        if op == "known" or fact.kind == "flag":
            return flag_operand(given)
        return word_operand(given, fact, self._gathered)

    def _wrong(self, wrong: Wrong, *path: str | int, key: bool = False) -> None:
        self.flaws.append(self._entry.flaw(wrong.check, wrong.message, wrong.advice, *path, key=key))


def unknown_fact(name: str) -> Wrong:
    """Return what is wrong with a fact that is not in the catalogue."""
    advice = did_you_mean(name, CATALOGUE, "`borewright rules facts` lists all of them.")
    return Wrong("unknown-fact", f"there is no fact `{name}`", advice)


def _suits(op: Op, fact: Fact) -> bool:
    suited: dict[str, Callable[[Op], bool]] = {
        "number": lambda each: each in NUMBER_OPS,
        "word": lambda each: each in ("equals", "one_of"),
        "flag": lambda each: each == "equals",
    }
    return op == "known" or suited[fact.kind](op)


def _unsuited(op: Op, fact: Fact) -> Wrong:
    what = {"number": "a number", "word": "a word", "flag": "yes or no"}[fact.kind]
    how = {
        "number": "Use at_least, at_most, above, below or between.",
        "word": "Use equals, one_of or known.",
        "flag": "Use `equals: true`, `equals: false` or known.",
    }[fact.kind]
    return Wrong("comparison", f"`{op}` cannot be asked of {fact.id}, which is {what}", how)


def flag_operand(given: object) -> Operand | Wrong:
    """Return yes or no as an operand, or what is wrong with it."""
    if isinstance(given, bool):
        return Operand(given, None, "yes" if given else "no")
    return Wrong("word", f"`{given}` is neither true nor false", "Write `true` or `false`.")


def word_operand(given: object, fact: Fact, gathered: Gathered) -> Operand | Wrong:
    """Return a word the fact can take as an operand, or what is wrong with it."""
    known = words_of(fact, gathered)
    if fact.by_grid and not known:
        advice = f"Add a grid with `answers: {fact.id}`, or ask another fact."
        return Wrong("unanswered-fact", f"{fact.id} is answered by a grid, and there is none for it here", advice)
    if isinstance(given, str) and given in known:
        return Operand(given, None, given.replace("_", " "))
    return Wrong("word", f"{fact.id} is never `{str(given).lower()}`", did_you_mean(str(given), known))
