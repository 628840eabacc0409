"""Why a remedy was chosen: what speaks for it, what is still open about it, and the limits it keeps."""

from collections.abc import Iterator
from math import inf, isinf

from recommender.account.answer_side import chosen
from recommender.account.finding_text import short
from recommender.account.lines import BLANK, Line, bullets, wrapped
from recommender.account.numbers import times
from recommender.account.words import fact_name, readable, stop
from recommender.deciding.answer import Advice, OptionShown, SideShown
from recommender.deciding.trace import Check, Group, RuleRun, Trace
from recommender.ground.quantity import show


def kept_lines(advice: Advice, side: SideShown) -> list[Line]:
    """Return the reasons for the chosen option of a side; nothing where none was chosen."""
    option = chosen(side)
    if option is None:
        return []
    reasons = [stop(each.text) for each in option.findings if each.counts_as == "supports"]
    cautions = [short(each) for each in (*side.findings, *option.findings) if each.counts_as == "cautions"]
    return [
        BLANK,
        *wrapped(f"What speaks for {readable(option.part)}:", "  "),
        *bullets(reasons, 4),
        *_under("What counts as a caution about it:", cautions),
        *_under("The limits it keeps, the closest first:", kept(advice.trace, option)),
    ]


def kept(trace: Trace, option: OptionShown) -> list[str]:
    """Return every number of the option that had to clear a bar and did, with the bar and the distance."""
    subject = option.node.removeprefix("contest/")
    bars = [
        node for node in trace.nodes.values()
        if isinstance(node, RuleRun) and node.subject == subject
        and (node.stance, node.outcome) == ("rules_out", "fails")
    ]  # fmt: skip
    checks = {(each.fact, each.wanted): each for bar in bars for each in _failing(trace, bar.id)}
    return [_told(each) for each in sorted(checks.values(), key=lambda each: (_spreads(each), each.fact, each.wanted))]


def _failing(trace: Trace, name: str) -> Iterator[Check]:
    """Yield the checks with a distance that keep a rule from holding; none when it is about other parts or frames."""
    below = [trace.nodes[each] for each in trace.nodes[name].rests_on]
    if any(isinstance(each, Check) and each.outcome == "fails" and not each.margin for each in below):
        return
    for node in below:
        if isinstance(node, Check) and node.outcome == "fails":
            yield node
        elif isinstance(node, Group) and node.kind != "none_of":
            yield from _failing(trace, node.id)


def _told(check: Check) -> str:
    distance, unit = check.margin.split(",")[0].split()
    far = show(abs(float(distance)), unit)
    spread = _spreads(check)
    counted = "" if isinf(spread) else f", {times(spread)} its spread"
    return f"{fact_name(check.fact)} {check.found}, barred {check.wanted}: clear by {far}{counted}."


def _spreads(check: Check) -> float:
    words = check.margin.split()
    return abs(float(words[-2])) if words[-1] == "spreads" else inf


def _under(title: str, texts: list[str]) -> list[Line]:
    return [BLANK, *wrapped(title, "  "), *bullets(texts, 4)] if texts else []
