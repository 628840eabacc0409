"""What a case expected against what was found."""

from collections.abc import Iterator
from typing import NamedTuple

from recommender.bench.by_hand import recompute
from recommender.bench.expect import Expect
from recommender.deciding.answer import Advice, RemedyShown, SideShown
from recommender.deciding.trace import RuleRun

COUNTED = ("bars", "asks", "open", "cautions")
STRICTEST_FIRST = ("holds", "undecided", "fails")


class Missed(NamedTuple):
    """One expectation that was missed: about what, what was expected, what was found, and what decided it."""

    about: str
    expected: str
    found: str
    reason: str


def missed(expect: Expect, advice: Advice) -> tuple[Missed, ...]:
    """Return every expectation of a case that its advice misses."""
    return tuple(
        each
        for each in (*_verdicts(expect, advice), *_rules(expect, advice), *_remedies(expect, advice), *_by_hand(expect))
        if each.expected != each.found
    )


def rule_outcome(advice: Advice, rule: str) -> tuple[str, str]:
    """Return the strictest outcome of a rule over everything it was run on, and on what; `not run` when nowhere.

    `holds` is stricter than `undecided`, `undecided` than `fails`.
    """
    runs = [node for node in advice.trace.nodes.values() if isinstance(node, RuleRun) and node.rule == rule]
    if not runs:
        return "not run", "no such rule, or nothing it is about"
    strictest = min(runs, key=lambda each: STRICTEST_FIRST.index(each.outcome))
    return strictest.outcome, f"on {strictest.subject}"


def _verdicts(expect: Expect, advice: Advice) -> Iterator[Missed]:
    yield Missed("frame", expect.frame, advice.frame.verdict, " ".join(advice.frame.reasons))
    for name, side in advice.sides.items():
        yield Missed(name, getattr(expect, name), side.verdict, deciding_reason(side))


def deciding_reason(side: SideShown) -> str:
    """Return the reason of a side's verdict with the findings that stopped it and, for a remedy, those passed over."""
    stopping = [f"{each.rule}: {each.text}" for each in side.stopped_by[:3]]
    before = [f"{each.id} {each.outcome}" for each in side.remedies if each.id != side.remedy]
    return " ".join([side.reason, *dict.fromkeys(stopping), f"({', '.join(before)})" if before else ""]).strip()


def _rules(expect: Expect, advice: Advice) -> Iterator[Missed]:
    for rule, wanted in expect.rules.items():
        outcome, where = rule_outcome(advice, rule)
        yield Missed(f"rule {rule}", wanted, outcome, where)


def _remedies(expect: Expect, advice: Advice) -> Iterator[Missed]:
    for name, wanted in expect.remedies.items():
        found = {each.id: each for each in advice.sides[name].remedies}
        for remedy, outcome in wanted.items():
            shown = found.get(remedy)
            about = f"{remedy}, {name}"
            if shown is None:
                yield Missed(about, outcome, "no such remedy", "")
            else:
                yield Missed(about, outcome, shown.outcome, " ".join(_options(shown)))


def _options(remedy: RemedyShown) -> Iterator[str]:
    """Yield the options that gave a remedy its outcome, each with the rules that did it."""
    for option in remedy.options:
        if option.outcome == remedy.outcome:
            rules = ", ".join(each.rule for each in option.findings if each.counts_as in COUNTED)
            yield f"{option.part}: {rules or 'nothing against it'}."


def _by_hand(expect: Expect) -> Iterator[Missed]:
    if expect.by_hand is not None:
        again = recompute(expect.by_hand)
        found = f"{again.found:.{again.decimals}f}"
        yield Missed("by_hand", str(again.printed), str(again.printed) if again.agrees else found, expect.by_hand)
