"""The walk from the deciding number of a side down to formulas, limits and readings, each with its place."""

import re
from collections.abc import Iterable, Iterator

from recommender.account.answer_side import chosen, side_of
from recommender.account.lines import Line, heading, wrapped
from recommender.account.stoppers import stoppers
from recommender.account.words import SIDES, fact_name, readable
from recommender.deciding.answer import Advice, CheckShown, SideShown
from recommender.deciding.trace import Derived, LimitUsed, Measured, Node, Trace

DECIDING_FACT = "fit.mean_interference"
STEP = 2
DIAMETER = re.compile(r"\.(readings|gauges)\.|\.(od|seat)$")
AS_READ = "before correction to 20 degC"


def walk_lines(advice: Advice, name: str, remedy: str | None = None, depth: int | None = None) -> list[Line]:
    """Return the path of the deciding number of a side, or of one remedy, down to what was measured.

    With `depth`, no more than so many steps down.
    """
    starts = [each for each in _starts(advice, name, remedy) if each in advice.trace.nodes]
    told = walked(advice.trace, starts, depth)
    return [*heading(f"DOWN TO THE READINGS, {SIDES[name]}"), *told] if told else []


def walked(trace: Trace, starts: Iterable[str], depth: int | None = None, level: int = 0) -> list[Line]:
    """Return the walk down from some steps of the trace, each step told once; `depth` steps at most."""
    return _Walk(trace, depth).from_all(starts, level)


def _starts(advice: Advice, name: str, remedy: str | None) -> tuple[str, ...]:
    side = side_of(advice, name)
    option = chosen(side)
    if option is not None and remedy in (None, side.remedy):
        return (f"{option.node.removeprefix('contest/')}/{DECIDING_FACT}",)
    check = next(_checks(side, remedy), None)
    return () if check is None or check.node not in advice.trace.nodes else advice.trace.nodes[check.node].rests_on


def _checks(side: SideShown, remedy: str | None) -> Iterator[CheckShown]:
    """Yield the deciding checks, those with a distance first."""
    if remedy is None:
        findings = [each.finding for each in stoppers(side)]
    else:
        options = [each for found in side.remedies if found.id == remedy for each in found.options]
        findings = [finding for each in options for finding in each.findings]
    checks = [check for finding in findings for check in finding.checks]
    yield from (each for each in checks if each.margin is not None)
    yield from (each for each in checks if each.margin is None)


class _Walk:
    """Walks down a trace and remembers what was told already."""

    def __init__(self, trace: Trace, depth: int | None) -> None:
        self._trace, self._depth, self._seen = trace, depth, set[str]()

    def from_all(self, starts: Iterable[str], level: int) -> list[Line]:
        return [line for start in starts for line in self._from(start, level, 0)]

    def _from(self, name: str, level: int, down: int) -> list[Line]:
        node = self._trace.nodes[name]
        if name in self._seen:
            return _told(f"{_title(node)}: see above", level)
        self._seen.add(name)
        if self._depth is not None and down >= self._depth:
            return _told(_node(node), level)
        below = [self._trace.nodes[each] for each in node.rests_on if each in self._trace.nodes]
        readings = [each for each in below if isinstance(each, Measured)]
        others = [each.id for each in below if not isinstance(each, Measured)]
        return [
            *_told(_node(node), level),
            *(line for each in others for line in self._from(each, level + 1, down + 1)),
            *self._readings(readings, level + 1),
        ]

    def _readings(self, readings: list[Measured], level: int) -> list[Line]:
        """Return the readings, those of one row of the sheet on one entry; told before, they are only pointed to."""
        rows: dict[tuple[str, str, str], list[Measured]] = {}
        for each in readings:
            if each.id not in self._seen:
                rows.setdefault((_row_of(each), each.what, each.spread), []).append(each)
        self._seen.update(each.id for each in readings)
        if readings and not rows:
            return _told("on the readings told above", level)
        return [line for row in rows.values() for line in _told(_measured(row), level)]


def _row_of(node: Measured) -> str:
    """Return the row of the bench sheet a reading stands in, which is its path without depth and turn."""
    return node.id.split(".at.")[0]


def _told(text: str, level: int) -> list[Line]:
    lead = " " * (STEP * (level + 1))
    return wrapped(text, lead, lead + "  ")


def _title(node: Node) -> str:
    if isinstance(node, Derived):
        return fact_name(node.fact)
    return f"limit {node.limit}" if isinstance(node, LimitUsed) else readable(node.id)


def _node(node: Node) -> str:
    if isinstance(node, Derived):
        return _derived(node)
    if isinstance(node, LimitUsed):
        kind = "part" if node.id.startswith("part:") else "limit"
        return f"{kind} {node.limit}: {node.shown}. {node.meaning}. Source: {node.source}{_at(node)}"
    return readable(node.id)


def _derived(node: Derived) -> str:
    source = "" if node.source in ("", "definition") else f"; source: {node.source}"
    assumed = ", resting on an assumed spread" if node.assumed else ""
    return f"{fact_name(node.fact)} [{node.fact}]: {node.shown}{assumed}. From: {node.made_by}{source}."


def _measured(row: list[Measured]) -> str:
    node = row[0]
    if not node.shown and node.place is None:
        return f"from the book: {node.what.replace(':', ' ')}"
    as_read = f"; {AS_READ}" if DIAMETER.search(node.id) else ""
    spread = f" ({node.spread}{'' if len(row) == 1 else ' each'}{as_read})" if node.spread else ""
    return f"measured: {node.what}: {node.shown if len(row) == 1 else _cells(row)}{spread}{_at(node)}"


def _cells(row: list[Measured]) -> str:
    """Return the values of a row of the sheet, by depth where it has depths, the unit once."""
    by_depth: dict[str, list[str]] = {}
    for each in row:
        _, _, cell = each.id.partition(".at.")
        by_depth.setdefault(cell.split(".")[0], []).append(each.shown.removesuffix(" mm"))
    told = [f"{f'depth {depth}: ' if depth else ''}{', '.join(shown)}" for depth, shown in by_depth.items()]
    return f"{'; '.join(told)}; all in mm"


def _at(node: Node) -> str:
    return f" [{node.place.file}:{node.place.line}]" if node.place is not None else ""
