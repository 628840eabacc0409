"""The trace: every step from a verdict down to readings, formulas and limits, each with a stable readable id."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any, NamedTuple

from recommender.ground.place import Place


class Measured(NamedTuple):
    """One thing the bench wrote down, as shown, with its spread; `assumed` when the spread is a default."""

    id: str
    place: Place | None
    rests_on: tuple[str, ...]
    what: str
    shown: str
    spread: str
    assumed: bool


class Derived(NamedTuple):
    """One fact: its value in words, the formula or person it was made by, and where that formula comes from."""

    id: str
    place: Place | None
    rests_on: tuple[str, ...]
    fact: str
    shown: str
    assumed: bool
    made_by: str
    source: str


class LimitUsed(NamedTuple):
    """One limit of the rule book, as it stands there, with the source that backs it."""

    id: str
    place: Place | None
    rests_on: tuple[str, ...]
    limit: str
    shown: str
    meaning: str
    source: str


class Check(NamedTuple):
    """One leaf of a condition: what was found, what was wanted, by how much it was met or missed."""

    id: str
    place: Place | None
    rests_on: tuple[str, ...]
    fact: str
    outcome: str
    found: str
    wanted: str
    margin: str


class Group(NamedTuple):
    """`every`, `some` or `none_of` over the nodes it rests on."""

    id: str
    place: Place | None
    rests_on: tuple[str, ...]
    kind: str
    outcome: str


class RuleRun(NamedTuple):
    """One rule run on one subject."""

    id: str
    place: Place | None
    rests_on: tuple[str, ...]
    rule: str
    subject: str
    stance: str
    outcome: str


class Contest(NamedTuple):
    """The outcome of an option or a remedy, resting on the findings or options that decided it."""

    id: str
    place: Place | None
    rests_on: tuple[str, ...]
    subject: str
    outcome: str


class Deferral(NamedTuple):
    """Something left to others, or to the bench before work goes on."""

    id: str
    place: Place | None
    rests_on: tuple[str, ...]
    text: str


class Verdict(NamedTuple):
    """The verdict of a side or of the frame."""

    id: str
    place: Place | None
    rests_on: tuple[str, ...]
    subject: str
    verdict: str
    reason: str


Node = Measured | Derived | LimitUsed | Check | Group | RuleRun | Contest | Deferral | Verdict


class Later(Mapping[str, Node]):
    """Nodes that are gathered when somebody first asks for one: most answers of many are only counted.

    Those that an answer is worded from are few, and can be had without all the others.
    """

    def __init__(self, gather: Callable[[], Mapping[str, Node]], few: Callable[[], Mapping[str, Node]]) -> None:
        """Keep how to gather them all, and how to gather those an answer is worded from."""
        self._gather, self._gather_few = gather, few

    @cached_property
    def _nodes(self) -> Mapping[str, Node]:
        return self._gather()

    @cached_property
    def _few(self) -> Mapping[str, Node]:
        return self._gather_few()

    def __getitem__(self, name: str) -> Node:
        """Return the node of an id; raises KeyError where there is none."""
        return self._few[name] if name in self._few else self._nodes[name]

    def __iter__(self) -> Iterator[str]:
        """Yield the ids."""
        return iter(self._nodes)

    def __len__(self) -> int:
        """Return how many there are."""
        return len(self._nodes)


@dataclass(frozen=True, slots=True)
class Trace:
    """All nodes of a decision by id."""

    nodes: Mapping[str, Node]

    def walk(self, start: str) -> Iterator[Node]:
        """Yield the node `start` and everything it rests on, depth first, each once.

        Raises KeyError when `start` is not a node of this trace.
        """
        seen: set[str] = set()
        waiting = [start]
        while waiting:
            node = self.nodes[waiting.pop()]
            if node.id in seen:
                continue
            seen.add(node.id)
            yield node
            waiting.extend(reversed(node.rests_on))

    def as_data(self) -> dict[str, dict[str, Any]]:
        """Return the trace as plain data: id to node kind and fields, places as `file:line:column`, nothing empty."""
        return {key: _plain(node) for key, node in sorted(self.nodes.items())}


def _plain(node: Node) -> dict[str, Any]:
    told = node._asdict().items()
    fields = {name: value for name, value in told if name != "id" and value not in (None, "", (), False)}
    if node.place is not None:
        fields["place"] = str(node.place)
    if node.rests_on:
        fields["rests_on"] = list(node.rests_on)
    return {"node": type(node).__name__, **fields}
