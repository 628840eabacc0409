"""The limits the chosen option keeps, each with its step in the trace."""

from collections.abc import Iterator
from math import inf
from typing import NamedTuple

from recommender.account.page_told import Told
from recommender.account.words import fact_name
from recommender.deciding.answer import OptionShown
from recommender.deciding.trace import Check, Group, RuleRun, Trace
from recommender.ground.quantity import show


class Kept(NamedTuple):
    """A number that had to clear a bar and did: the number, the bar, the distance."""

    found: Told
    barred: Told
    clear: Told


def kept_limits(trace: Trace, option: OptionShown) -> list[Kept]:
    """Return every number of an option that had to clear a bar and did, those closest to their bar first."""
    subject = option.node.removeprefix("contest/")
    bars = [
        node.id for node in trace.nodes.values()
        if isinstance(node, RuleRun) and node.subject == subject
        and (node.stance, node.outcome) == ("rules_out", "fails")
    ]  # fmt: skip
    checks = {(each.fact, each.wanted): each for bar in bars for each in _failing(trace, bar)}
    ordered = sorted(checks.values(), key=lambda each: (_spreads(each), each.fact, each.wanted))
    return [_kept(each) for each in ordered]


def _failing(trace: Trace, name: str) -> Iterator[Check]:
    """Yield the checks with a distance that keep a rule from holding; none when a word already does."""
    below = [trace.nodes[each] for each in trace.nodes[name].rests_on]
    if any(isinstance(each, Check) and each.outcome == "fails" and not each.margin for each in below):
        return
    for node in below:
        if isinstance(node, Check) and node.outcome == "fails":
            yield node
        elif isinstance(node, Group) and node.kind != "none_of":
            yield from _failing(trace, node.id)


def _kept(check: Check) -> Kept:
    distance, unit = check.margin.split(",")[0].split()
    found = Told(f"{fact_name(check.fact)}: {check.found}", check.id)
    return Kept(found, Told(check.wanted, check.id), Told(show(abs(float(distance)), unit), check.id))


def _spreads(check: Check) -> float:
    """Return the distance in half intervals; numbers without an interval come last."""
    words = check.margin.split()
    return abs(float(words[-2])) if words[-1] == "spreads" else inf
