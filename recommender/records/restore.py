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
from recommender.ground.place import Place

KINDS: Mapping[str, type[Node]] = {
    each.__name__: each
    for each in (Measured, Derived, LimitUsed, Check, Group, RuleRun, Contest, Deferral, Verdict)
}
PLACE = re.compile(r"(.*):([0-9]+):([0-9]+)", re.DOTALL)
FLAGS = frozenset({"assumed"})


def advice_from(data: Mapping[str, Any]) -> Advice:
    """Return the advice behind stored data; `as_data` of it is that data again.

    Places carry where something begins, which is all that is stored of them. Raises pydantic's ValidationError,
    KeyError or TypeError when the data are not those of an advice.
    """
    nodes = {key: _node(key, fields) for key, fields in data["trace"].items()}
    return replace(_adapter().validate_python({**data, "trace": {"nodes": {}}}), trace=Trace(nodes))


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
