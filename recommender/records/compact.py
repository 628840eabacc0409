"""The trace of an answer as a record stores it: each text once, ids by what they share with the one before."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import pairwise
from typing import Any

Trace = Mapping[str, Mapping[str, Any]]
KIND, RESTS = "node", "rests_on"
MOST_LETTERS = 64_000_000


def compact(trace: Trace) -> dict[str, Any]:
    """Return the nodes of a trace as tables of texts, kinds, ids and rows; `expanded` of it is the trace again.

    A row starts with the number of its kind, then has for each of its fields the number of a text, a flag, nothing,
    or the numbers of the nodes it rests on. Ids are sorted, each stored as the count of letters it begins with like
    the one before, and the rest. Raises KeyError when a node rests on one that is not there.
    """
    ids = sorted(trace)
    number_of = {name: number for number, name in enumerate(ids)}
    kinds = {kind: _fields(trace, kind) for kind in sorted({node[KIND] for node in trace.values()})}
    kind_of = {kind: number for number, kind in enumerate(kinds)}
    texts = sorted({value for node in trace.values() for field, value in node.items()
                    if field != KIND and isinstance(value, str)})  # fmt: skip
    text_of = {text: number for number, text in enumerate(texts)}

    def stored(field: str, value: Any) -> Any:
        if field == RESTS and value is not None:
            return [number_of[each] for each in value]
        return text_of[value] if isinstance(value, str) else value

    rows = [[kind_of[node[KIND]], *(stored(field, node.get(field)) for field in kinds[node[KIND]])]
            for node in map(trace.__getitem__, ids)]  # fmt: skip
    return {"texts": texts, "kinds": list(kinds.items()), "ids": list(_shortened(ids)), "rows": rows}


def expanded(stored: Mapping[str, Any]) -> dict[str, dict[str, Any]]:
    """Return the trace that `compact` made the tables of.

    Raises ValueError, LookupError or TypeError when these are no such tables.
    """
    ids = list(_lengthened(stored["ids"]))
    kinds, texts = stored["kinds"], stored["texts"]

    def value(field: str, kept: Any) -> Any:
        if field == RESTS:
            return [ids[each] for each in kept]
        return kept if isinstance(kept, bool) else texts[kept]

    def node(row: Sequence[Any]) -> dict[str, Any]:
        kind, fields = kinds[row[0]]
        told = zip(fields, row[1:], strict=True)
        return {KIND: kind, **{field: value(field, kept) for field, kept in told if kept is not None}}

    return {name: node(row) for name, row in zip(ids, stored["rows"], strict=True)}


def with_tables(data: Mapping[str, Any]) -> dict[str, Any]:
    """Return the data of a record with its trace as `compact` makes it; raises what `compact` raises."""
    return _with_trace(data, compact)


def with_nodes(data: Mapping[str, Any]) -> dict[str, Any]:
    """Return the data of a record with its trace as `expanded` makes it; raises what `expanded` raises."""
    return _with_trace(data, expanded)


def _with_trace(data: Mapping[str, Any], made: Callable[[Any], dict[str, Any]]) -> dict[str, Any]:
    return {**data, "advice": {**data["advice"], "trace": made(data["advice"]["trace"])}}


def _fields(trace: Trace, kind: str) -> list[str]:
    return sorted({field for node in trace.values() if node[KIND] == kind for field in node} - {KIND})


def _shortened(ids: Sequence[str]) -> Iterator[tuple[int, str]]:
    for before, name in pairwise(["", *ids]):
        pairs = zip(before, name, strict=False)
        shared = next((count for count, (one, two) in enumerate(pairs) if one != two), min(len(before), len(name)))
        yield shared, name[shared:]


def _lengthened(ids: Sequence[tuple[int, str]]) -> Iterator[str]:
    name, letters = "", 0
    for shared, rest in ids:
        name = name[:shared] + rest
        letters += len(name)
        # Few letters of a file can stand for any number of them.
        if letters > MOST_LETTERS:
            raise ValueError("the ids of a trace are too long")
        yield name
