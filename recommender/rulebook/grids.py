"""Grids from files to tables of the book, proven complete and free of overlaps, their examples run."""

from collections.abc import Iterator, Mapping

from recommender.facts.catalogue import CATALOGUE
from recommender.facts.fact import SCOPE_ORDER, Fact
from recommender.facts.value import FactValue, Word
from recommender.ground.flaw import Flaw
from recommender.ground.quantity import show
from recommender.ground.suggest import did_you_mean
from recommender.logic.conditions import Operand
from recommender.logic.grids import Axis, Band, Cells, Grid, Part, Row, Words, gaps, overlaps
from recommender.reading.document import Path
from recommender.rulebook.book import Limit
from recommender.rulebook.examples import value_of
from recommender.rulebook.gather import Entry, Gathered
from recommender.rulebook.grid import AnswerGrid, GridExample
from recommender.rulebook.models.grids import BandModel, GridModel
from recommender.rulebook.numbers import Wrong, number_operand
from recommender.rulebook.resolving import flag_operand, unknown_fact, word_operand
from recommender.rulebook.source import source_of
from recommender.rulebook.vocabulary import words_of

UNDECIDED = "undecided"
MOST_TOLD = 5


def grids_of(gathered: Gathered, limits: Mapping[str, Limit], run: str, flaws: list[Flaw]) -> dict[str, AnswerGrid]:
    """Return every grid that can be used; what is wrong with the others is added to `flaws`.

    `run` is the layer whose examples are run.
    """
    made: dict[str, AnswerGrid] = {}
    answered: dict[str, Entry[GridModel]] = {}
    for entry in gathered.grids.values():
        first = answered.setdefault(entry.model.answers, entry)
        if first is not entry:
            message = f"{entry.model.answers} is answered by `{first.id}` already"
            advice = f"Take one out, or `replace: {first.id}` in the house; the first stands at {first.place()}."
            flaws.append(entry.flaw("grid-answer", message, advice, "answers"))
            continue
        builder = _Builder(entry, gathered, limits)
        grid = builder.grid()
        if grid is not None and entry.layer == run:
            builder.flaws += _unmet(entry, grid)
        flaws += builder.flaws
        if grid is not None and not builder.flaws:
            made[entry.id] = grid
    return made


class _Builder:
    """Makes one grid; what is wrong with it is kept in `flaws`."""

    def __init__(self, entry: Entry[GridModel], gathered: Gathered, limits: Mapping[str, Limit]) -> None:
        self._entry, self._gathered, self._limits = entry, gathered, limits
        self.flaws: list[Flaw] = []

    def grid(self) -> AnswerGrid | None:
        """Return the grid, None when its inputs or rows cannot be meant."""
        entry, model = self._entry, self._entry.model
        axes = self._axes()
        if self.flaws:
            return None
        rows = [self._row(index, axes) for index in range(len(model.rows))]
        if self.flaws:
            return None
        table = Grid(axes, tuple(rows))
        self.flaws += _unproven(entry, table)
        if self.flaws:
            return None
        places = tuple(entry.place("rows", index) for index in range(len(rows)))
        return AnswerGrid(entry.id, model.title, model.answers, table, source_of(model.source), entry.place(),
                          entry.layer, self._examples(axes), places)  # fmt: skip

    def _axes(self) -> tuple[Axis, ...]:
        answers = CATALOGUE.get(self._entry.model.answers)
        if answers is None or not answers.by_grid:
            self._wrong(_not_answered(self._entry.model.answers), "answers")
            return ()
        axes: list[Axis] = []
        for index, name in enumerate(self._entry.model.inputs):
            fact = CATALOGUE.get(name)
            wrong = unknown_fact(name) if fact is None else _unfit(fact, answers, [each.fact.id for each in axes])
            if wrong is not None:
                self._wrong(wrong, "inputs", index)
            elif fact is not None:
                axes.append(Axis(fact, _all_words(fact, self._gathered)))
        return tuple(axes)

    def _row(self, index: int, axes: tuple[Axis, ...]) -> Row:
        model = self._entry.model.rows[index]
        facts = {axis.fact.id: axis.fact for axis in axes}
        for name in model.at:
            if name not in facts:
                wrong = Wrong("not-asked", f"{name} is not an input of this grid", did_you_mean(name, facts))
                self._wrong(wrong, "rows", index, "at", name, key=True)
        parts = (None if name not in model.at else self._part(model.at[name], fact, ("rows", index, "at", name))
                 for name, fact in facts.items())  # fmt: skip
        return Row(tuple(parts), model.gives)

    def _part(self, given: object, fact: Fact, path: Path) -> Part:
        if isinstance(given, BandModel):
            return self._band(given, fact, path)
        words = given if isinstance(given, list) else [given]
        if fact.kind == "number":
            advice = "Write `{from: LIMIT, to: LIMIT}`, or leave the input out where it may be anything."
            self._wrong(Wrong("comparison", f"{fact.id} is a number, and words stand here", advice), *path)
            return None
        found = [flag_operand(each) if fact.kind == "flag" else word_operand(each, fact, self._gathered)
                 for each in words]  # fmt: skip
        for index, each in enumerate(found):
            if isinstance(each, Wrong):
                at = (*path, index)
                self._wrong(each, *(at if (*self._entry.path, *at) in self._entry.document.places else path))
        return Words(tuple(each.value for each in found if isinstance(each, Operand)))  # type: ignore[misc]

    def _band(self, given: BandModel, fact: Fact, path: Path) -> Part:
        if fact.kind != "number":
            self._wrong(Wrong("comparison", f"{fact.id} is no number, and a range stands here", "Write words."), *path)
            return None
        ends: list[Operand | None] = []
        for key, end in (("from", given.start), ("to", given.end)):
            found = None if end is None else number_operand(end, fact, self._limits)
            if isinstance(found, Wrong):
                self._wrong(found, *path, key)
                found = None
            ends.append(found)
        low, high = ends
        if low is not None and high is not None and float(low.value) >= float(high.value):
            message = f"nothing lies from {low.shown} to under {high.shown}"
            self._wrong(Wrong("grid-empty", message, "Exchange the ends, or correct one of them."), *path)
        return Band(low, high)

    def _examples(self, axes: tuple[Axis, ...]) -> tuple[GridExample, ...]:
        asked, made = [axis.fact.id for axis in axes], []
        for index, model in enumerate(self._entry.model.examples):
            facts: dict[str, FactValue] = {}
            for name, given in model.facts.items():
                found = value_of(name, given, self._entry.id, asked, self._gathered)
                if isinstance(found, Wrong):
                    at_key = found.check in ("unknown-fact", "not-asked")
                    self._wrong(found, "examples", index, "facts", name, key=at_key)
                else:
                    facts[name] = found
            made.append(GridExample(model.name, facts, model.expect))
        return tuple(made)

    def _wrong(self, wrong: Wrong, *path: str | int, key: bool = False) -> None:
        self.flaws.append(self._entry.flaw(wrong.check, wrong.message, wrong.advice, *path, key=key))


def _all_words(fact: Fact, gathered: Gathered) -> tuple[Word, ...]:
    return (True, False) if fact.kind == "flag" else words_of(fact, gathered)


def _not_answered(name: str) -> Wrong:
    known = [each.id for each in CATALOGUE.values() if each.by_grid]
    return Wrong("grid-answer", f"`{name}` is no fact that a grid answers", f"Grids answer {', '.join(sorted(known))}.")


def _unfit(fact: Fact, answers: Fact, before: list[str]) -> Wrong | None:
    if fact.id in before:
        return Wrong("grid-input", f"{fact.id} is an input twice", "Take one out.")
    if fact.conformity:
        message = f"{fact.id} says whether the bore conforms; whether a part fits is another question"
        return Wrong("conformity", message, "Ask a fact about the bore or the fit.")
    if fact.by_grid:
        return Wrong("grid-input", f"{fact.id} is answered by a grid itself", "Ask what that grid asks.")
    if SCOPE_ORDER[fact.scope] > SCOPE_ORDER[answers.scope]:
        message = f"{fact.id} is known for each {fact.scope}, and {answers.id} for each {answers.scope}"
        return Wrong("scope", message, "Ask facts at least as wide as the answer.")
    return None


def _unproven(entry: Entry[GridModel], table: Grid) -> Iterator[Flaw]:
    for one, two, cells in overlaps(table):
        first = entry.place("rows", one)
        message = f"row {two + 1} overlaps row {one + 1}: both answer {_named(table, cells)}"
        advice = f"Narrow one of them; row {one + 1} stands at {first.file}:{first.line}."
        yield entry.flaw("grid-overlap", message, advice, "rows", two, "at")
    found = list(gaps(table))
    for cells in found[:MOST_TOLD]:
        more = f" There are {len(found) - MOST_TOLD} more such gaps." if len(found) > MOST_TOLD else ""
        advice = f"Add a row for it, or widen one beside it.{more}"
        yield entry.flaw("grid-gap", f"no row answers {_named(table, cells)}", advice, "rows", key=True)


def _named(table: Grid, cells: Cells) -> str:
    return ", ".join(f"{axis.fact.id} {_cell(cell, axis.fact)}" for axis, cell in zip(table.axes, cells, strict=True))


def _cell(cell: object, fact: Fact) -> str:
    if not isinstance(cell, tuple):
        return str(cell).lower() if isinstance(cell, bool) else str(cell)
    low, high = (None if abs(end) == float("inf") else show(end, fact.unit) for end in cell)
    if low is None:
        return "at any value" if high is None else f"under {high}"
    return f"from {low}" if high is None else f"from {low} to under {high}"


def _unmet(entry: Entry[GridModel], grid: AnswerGrid) -> Iterator[Flaw]:
    for index, example in enumerate(grid.examples):
        words = grid.table.look_up(example.facts).words
        found = words[0] if len(words) == 1 else UNDECIDED
        if example.expect not in (*grid.words, UNDECIDED):
            message, advice = f"no row of this grid gives `{example.expect}`", did_you_mean(example.expect, grid.words)
            yield entry.flaw("word", message, advice, "examples", index, "expect")
        elif found != example.expect:
            message = f"the example `{example.name}` expects {example.expect}, but the grid gives {found}"
            advice = f"Correct grid or example ({' or '.join(words) or 'no row'} may be meant)."
            yield entry.flaw("example", message, advice, "examples", index, "expect")
