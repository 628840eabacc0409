"""One fact or one rule of an advice: what it came to on each subject, and the walk down from there."""

from collections.abc import Iterable, Iterator, Sequence

from recommender.account.finding_text import readable_words
from recommender.account.lines import Line, heading, row, wrapped
from recommender.account.walk_text import walked
from recommender.account.words import SIDES, fact_name, readable, stop
from recommender.deciding.answer import Advice, Finding
from recommender.deciding.trace import Check, Derived, LimitUsed, RuleRun
from recommender.facts.catalogue import CATALOGUE

ONE_STEP = 1


def facts_known(advice: Advice) -> list[str]:
    """Return the ids of every fact the trace of an advice holds, sorted."""
    return sorted({each.fact for each in advice.trace.nodes.values() if isinstance(each, Derived)})


def rules_known(advice: Advice) -> list[str]:
    """Return the ids of every rule that was run for an advice, sorted."""
    return sorted({each.rule for each in advice.trace.nodes.values() if isinstance(each, RuleRun)})


def fact_lines(
    advice: Advice, fact: str, side: str | None = None, remedy: str | None = None, depth: int | None = None
) -> list[Line]:
    """Return a fact in words, what it came to on frame, sides and options, every check that asked it, and the walk."""
    known = CATALOGUE.get(fact)
    about = [] if known is None else [*wrapped(stop(known.meaning), "  "), *row("Made by", known.made_by),
                                      *row("Source", known.source)]  # fmt: skip
    nodes = [each for each in advice.trace.nodes.values() if isinstance(each, Derived) and each.fact == fact]
    found = [each for each in nodes if _wanted(_subject_of(each), side, remedy)]
    return [
        *wrapped(f"{fact_name(fact)} [{fact}]", weight="heading"), *about,
        *(line for each in found for line in _fact(advice, each, depth)),
    ]  # fmt: skip


def rule_lines(
    advice: Advice, rule: str, side: str | None = None, remedy: str | None = None, depth: int | None = None
) -> list[Line]:
    """Return a rule with what became of it on every subject it was run on: found, asked, margin in unit and spreads."""
    runs = [each for each in advice.trace.nodes.values() if isinstance(each, RuleRun) and each.rule == rule]
    told = next((each for each in _findings(advice) if each.rule == rule), None)
    head = rule if told is None else f"{told.title} [{rule}]"
    source = [] if told is None else row("Source", told.source.text)
    stance = row("If it holds", readable(runs[0].stance)) if runs else []
    wanted = [each for each in runs if _wanted(each.subject, side, remedy)]
    return [
        *wrapped(head, weight="heading"), *stance, *source,
        *(line for each in wanted for line in _run(advice, each, depth)),
    ]  # fmt: skip


def _wanted(subject: str, side: str | None, remedy: str | None) -> bool:
    """Return whether a subject belongs to the side and remedy asked about; the frame belongs to both sides."""
    name, _, rest = subject.partition("/")
    return (side is None or name in (side, "frame")) and (remedy is None or not rest or rest.split("/")[0] == remedy)


def _subject_of(node: Derived) -> str:
    return node.id.removesuffix(f"/{node.fact}") if "/" in node.id else "frame"


def _subject(name: str) -> str:
    """Return the subject of a fact or run in words: `drive side, press as is, polymer cup 46`."""
    side, *rest = name.split("/", 2)
    return ", ".join([SIDES.get(side, "frame"), *map(readable, rest)])


def _fact(advice: Advice, node: Derived, depth: int | None) -> list[Line]:
    asked = [
        each for each in advice.trace.nodes.values() if isinstance(each, Check) and node.id in each.rests_on]
    return [
        *heading(_subject(_subject_of(node))),
        *walked(advice.trace, [node.id], depth),
        *(line for each in _distinct(asked) for line in row("Asked", _check(each))),
    ]


def _distinct(checks: Iterable[Check]) -> list[Check]:
    return list({(_rule_of(each.id), each.wanted, each.outcome, each.margin): each for each in checks}.values())


def _run(advice: Advice, run: RuleRun, depth: int | None) -> list[Line]:
    checks = [each for each in advice.trace.walk(run.id) if isinstance(each, Check)]
    return [
        *heading(f"{_subject(run.subject)}: {run.outcome}"),
        *(line for each in checks for line in _checked(advice, each, depth)),
    ]


def _checked(advice: Advice, check: Check, depth: int | None) -> list[Line]:
    nodes = advice.trace.nodes
    limits = [node for each in check.rests_on if isinstance(node := nodes.get(each), LimitUsed)]
    below = walked(advice.trace, check.rests_on, depth - ONE_STEP, 1) if depth is not None and depth > 0 else []
    return [
        *wrapped(f"{fact_name(check.fact)} [{check.fact}]: {check.outcome}", "  "),
        *row("Found", check.found, 4),
        *row("Asked", readable_words(check.wanted), 4),
        *row("Distance", check.margin, 4),
        *(line for each in limits for line in row("Limit", f"{each.meaning}; {each.source}", 4)),
        *below,
    ]


def _check(check: Check) -> str:
    margin = f", by {check.margin}" if check.margin else ""
    return f"{readable_words(check.wanted)}: {check.outcome}{margin} [{_rule_of(check.id)}]"


def _rule_of(name: str) -> str:
    return name.removeprefix("check/").partition("@")[0]


def _findings(advice: Advice) -> Iterator[Finding]:
    yield from advice.frame.findings
    for side in advice.sides.values():
        yield from side.findings
        yield from (each for remedy in side.remedies for option in remedy.options for each in option.findings)
    for cause in advice.causes:
        yield from _of_cause((cause.speaks_for, cause.speaks_against, cause.open))


def _of_cause(groups: Sequence[Sequence[Finding]]) -> Iterator[Finding]:
    yield from (each for group in groups for each in group)
