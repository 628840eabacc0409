"""Where facts come from: nodes for facts, limits, listed parts and measured things, down to the case file."""

from recommender.deciding import trace
from recommender.deciding.because import shown_fact
from recommender.deciding.runs import NOT_DERIVED, option_subject
from recommender.deriving.derived import SIDES, Derived
from recommender.facts.catalogue import CATALOGUE
from recommender.facts.value import FactValue
from recommender.ground.quantity import show
from recommender.rulebook.book import Rulebook


class Provenance:
    """Adds to a trace, on demand, the facts it rests on and what these were made from."""

    def __init__(self, derived: Derived, book: Rulebook, nodes: dict[str, trace.Node]) -> None:
        """Keep the facts of every scope by its name."""
        self._derived, self._book, self._nodes = derived, book, nodes
        self._scopes = {"frame": derived.frame}
        for name, side in derived.sides.items():
            self._scopes[name] = side.facts
            self._scopes |= {option_subject(name, option): option.facts for option in side.options}

    def fact(self, fact: str, subject: str) -> str:
        """Return the id of the node of a fact as seen from a subject: its option, else its side, else the frame."""
        where, value = self._find(fact, subject)
        name = f"{where}/{fact}"
        if name not in self._nodes:
            self._keep_fact(name, fact, value, where)
        return name

    def limit(self, limit: str) -> str:
        """Return the id of the node of a limit of the book."""
        name = f"limit:{limit}"
        if name not in self._nodes:
            known = self._book.limits[limit]
            shown = show(known.value, known.unit)
            self._nodes[name] = trace.LimitUsed(name, known.place, (), limit, shown, known.meaning, str(known.source))
        return name

    def _find(self, fact: str, subject: str) -> tuple[str, FactValue]:
        side = subject.split("/")[0]
        for scope in dict.fromkeys((subject, side, "frame")):
            if fact in self._scopes.get(scope, {}):
                return scope, self._scopes[scope][fact]
        scope = {"frame": "frame", "side": side, "option": subject}[CATALOGUE[fact].scope]
        return scope, NOT_DERIVED[fact]

    def _keep_fact(self, name: str, fact: str, value: FactValue, where: str) -> None:
        known = CATALOGUE[fact]
        node = trace.Derived(name, None, (), fact, shown_fact(value, known), value.assumed, known.made_by, known.source)
        # Kept once before its inputs are followed, so that facts made from each other cannot go round for ever.
        self._nodes[name] = node
        rests = dict.fromkeys(each for given in value.inputs for each in self._inputs(given, where))
        self._nodes[name] = node._replace(rests_on=tuple(each for each in rests if each != name))

    def _inputs(self, given: str, where: str) -> tuple[str, ...]:
        if given.startswith("limit:") and given.removeprefix("limit:") in self._book.limits:
            return (self.limit(given.removeprefix("limit:")),)
        if given in CATALOGUE:
            return self._facts(given, where)
        return (self._named(given),)

    def _facts(self, fact: str, where: str) -> tuple[str, ...]:
        """Return the nodes of a fact; a fact of the frame made from facts of a side rests on those of both."""
        if where == "frame" and CATALOGUE[fact].scope == "side":
            return tuple(self.fact(fact, side) for side in SIDES)
        return (self.fact(fact, where),)

    def _named(self, given: str) -> str:
        if given not in self._nodes:
            self._nodes[given] = self._noted(given)
        return given

    def _noted(self, given: str) -> trace.Node:
        if given.startswith("grid:"):
            return self._row(given)
        return self._part(given) if given.startswith("part:") else self._measured(given)

    def _row(self, given: str) -> trace.Node:
        """Return the row of a grid that holds, `grid:ID/NUMBER`."""
        name, _, number = given.removeprefix("grid:").partition("/")
        grid, index = self._book.grids[name], int(number) - 1
        shown = f"row {number}: {grid.row_shown(index)}"
        return trace.LimitUsed(given, grid.places[index], (), name, shown, grid.title, str(grid.source))

    def _part(self, given: str) -> trace.Node:
        part = self._book.parts.get(given.removeprefix("part:"))
        if part is None:
            return trace.Measured(given, None, (), given, "not in the parts list", "", False)
        ends = [show(each, "mm") for each in part.od or ()]
        band = f"{' to '.join(ends)} at 20 degC" if ends else "no band known"
        return trace.LimitUsed(given, None, (), part.id, band, part.title, str(part.source))

    def _measured(self, given: str) -> trace.Node:
        seen = self._derived.measured.get(given) or self._derived.measured.get(given.removeprefix("case:"))
        if seen is None:
            return trace.Measured(given, None, (), given.removeprefix("case:"), "", "", False)
        return trace.Measured(given, seen.place, (), seen.what, seen.shown, seen.spread, seen.assumed)
