"""The walk from the deciding number of a side down to formulas, limits and readings, each with its place."""

from collections.abc import Iterator

from recommender.account.answer_side import chosen, side_of
from recommender.account.lines import Line, heading, wrapped
from recommender.account.words import SIDES, fact_name
from recommender.deciding.answer import Advice, CheckShown, SideShown
from recommender.deciding.trace import Derived, LimitUsed, Measured, Node, Trace

DECIDING_FACT = "fit.mean_interference"
STEP = 2


def walk_lines(advice: Advice, name: str, remedy: str | None = None) -> list[Line]:
    """Return the path of the deciding number of a side, or of one remedy, down to what was measured."""
    starts = _starts(advice, name, remedy)
    if not starts:
        return []
    seen: set[str] = set()
    told = [line for start in starts for line in _walk(advice.trace, start, 0, seen)]
    return [*heading(f"DOWN TO THE READINGS, {SIDES[name]}"), *told]


def _starts(advice: Advice, name: str, remedy: str | None) -> list[str]:
    side = side_of(advice, name)
    check = next(_checks(side, remedy), None)
    if check is not None:
        return [each for each in _rests_on(advice.trace, check.node) if each in advice.trace.nodes]
    option = chosen(side)
    fallback = f"{name}/{side.remedy}/{option.part}/{DECIDING_FACT}" if option is not None else ""
    return [fallback] if fallback in advice.trace.nodes else []


def _checks(side: SideShown, remedy: str | None) -> Iterator[CheckShown]:
    """Yield the deciding checks, those with a distance first."""
    option = chosen(side)
    if remedy is None:
        findings = side.stopped_by or (option.findings if option is not None else ())
    else:
        options = [each for found in side.remedies if found.id == remedy for each in found.options]
        findings = tuple(finding for each in options for finding in each.findings)
    checks = [check for finding in findings for check in finding.checks]
    yield from (each for each in checks if each.margin is not None)
    if side.verdict in ("refuse", "measure_again") or remedy is not None:
        yield from (each for each in checks if each.margin is None)


def _walk(trace: Trace, name: str, level: int, seen: set[str]) -> list[Line]:
    node = trace.nodes[name]
    if name in seen:
        return _told(f"{_title(node)}: see above", level)
    seen.add(name)
    below = [each for each in node.rests_on if each in trace.nodes]
    measured = [each for each in below if isinstance(trace.nodes[each], Measured)]
    others = [each for each in below if each not in measured]
    return [
        *_told(_node(node), level),
        *(line for each in others for line in _walk(trace, each, level + 1, seen)),
        *(line for each in measured for line in _reading(trace.nodes[each], level + 1, seen)),
    ]


def _reading(node: Node, level: int, seen: set[str]) -> list[Line]:
    if node.id in seen:
        return []
    seen.add(node.id)
    return _told(_node(node), level)


def _told(text: str, level: int) -> list[Line]:
    lead = " " * (STEP * (level + 1))
    return wrapped(text, lead, lead + "  ")


def _title(node: Node) -> str:
    if isinstance(node, Derived):
        return fact_name(node.fact)
    return node.limit if isinstance(node, LimitUsed) else node.id


def _node(node: Node) -> str:
    if isinstance(node, Derived):
        return _derived(node)
    if isinstance(node, LimitUsed):
        return f"limit {node.limit}: {node.shown}. {node.meaning}. Source: {node.source}{_at(node)}"
    if isinstance(node, Measured):
        return _measured(node)
    return node.id


def _derived(node: Derived) -> str:
    source = "" if node.source in ("", "definition") else f"; source: {node.source}"
    assumed = " (rests on an assumed spread)" if node.assumed else ""
    return f"{fact_name(node.fact)} [{node.fact}]: {node.shown}{assumed}. From: {node.made_by}{source}."


def _measured(node: Measured) -> str:
    assumed = ", assumed" if node.assumed else ""
    spread = f" ({node.spread}{assumed})" if node.spread else ""
    return f"measured: {node.what} {node.shown}{spread}{_at(node)}"


def _at(node: Node) -> str:
    return f" [{node.place.file}:{node.place.line}]" if node.place is not None else ""


def _rests_on(trace: Trace, name: str) -> tuple[str, ...]:
    return trace.nodes[name].rests_on if name in trace.nodes else ()
