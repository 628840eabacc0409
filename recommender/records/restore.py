"""An advice made again from stored data, so that every account can be made from a record as from a case."""

import re
from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from typing import Any

from pydantic import TypeAdapter

from recommender.deciding.answer import Advice
from recommender.deciding.trace import (
    Check,
    Contest,
    Deferral,
    Derived,
    Group,
    LimitUsed,
    Measured,
    Node,
    RuleRun,
    Trace,
    Verdict,
)
from recommender.deriving.derived import SIDES
from recommender.ground.place import Place

KINDS: Mapping[str, type[Node]] = {
    each.__name__: each
    for each in (Measured, Derived, LimitUsed, Check, Group, RuleRun, Contest, Deferral, Verdict)
}
PLACE = re.compile(r"(.*):([0-9]+):([0-9]+)", re.DOTALL)
# What data that are no advice end in; pydantic's errors are among the ValueErrors.
NO_ADVICE = (ValueError, LookupError, TypeError, AttributeError, RecursionError)
FLAGS = frozenset({"assumed"})


def advice_from(data: Mapping[str, Any]) -> Advice:
    """Return the advice behind stored data; `as_data` of it is that data again.

    Places carry where something begins, which is all that is stored of them. Raises pydantic's ValidationError,
    KeyError, TypeError, AttributeError or ValueError when the data are not those of an advice.
    """
    nodes = {key: _node(key, fields) for key, fields in data["trace"].items()}
    _walked_to_the_end(nodes)
    advice = replace(_adapter().validate_python({**data, "trace": {"nodes": {}}}), trace=Trace(nodes))
    if set(advice.sides) != set(SIDES):
        raise ValueError("an advice speaks of both sides")
    return advice


def _walked_to_the_end(nodes: Mapping[str, Node]) -> None:
    """Raise ValueError when a walk down from some node never ends, KeyError when it leads to one that is not there."""
    waiting = {name: len(set(node.rests_on)) for name, node in nodes.items()}
    above: dict[str, list[str]] = {name: [] for name in nodes}
    for name, node in nodes.items():
        for each in set(node.rests_on):
            above[each].append(name)
    ends = [name for name, count in waiting.items() if not count]
    for name in ends:  # grows meanwhile, by each node once
        for each in above[name]:
            waiting[each] -= 1
            if not waiting[each]:
                ends.append(each)
    if len(ends) != len(nodes):
        raise ValueError("a trace goes round in circles")


@cache
def _adapter() -> TypeAdapter[Advice]:
    return TypeAdapter(Advice)


def _node(key: str, fields: Mapping[str, Any]) -> Node:
    kind = KINDS[fields["node"]]
    told = {name: fields.get(name, False if name in FLAGS else "") for name in kind._fields}
    made = {**told, "id": key, "place": _place(fields.get("place")), "rests_on": tuple(fields.get("rests_on", ()))}
    return kind(**made)


def _place(shown: str | None) -> Place | None:
    match = None if shown is None else PLACE.fullmatch(shown)
    if match is None:
        return None
    line, column = int(match[2]), int(match[3])
    return Place(match[1], line, column, line, column)
