"""A finding told as at the bench: the sentence, what was found and wanted, the distance, and who says so."""

from recommender.account.lines import Line, row, wrapped
from recommender.account.numbers import margin
from recommender.account.words import capital, stop
from recommender.deciding.answer import CheckShown, Finding
from recommender.deciding.trace import LimitUsed, Trace

AGAINST = frozenset({"stops_work", "rules_out", "asks_first", "advises_against"})


def finding_lines(finding: Finding, trace: Trace, indent: int = 2) -> list[Line]:
    """Return a finding in full: its sentence, each deciding check with limit and source, and the rule behind it."""
    lead = " " * indent
    rule = f"{finding.rule} ({standing(finding)}); {finding.source.text}"
    return [
        *wrapped(stop(finding.text), lead),
        *(line for check in finding.checks for line in check_lines(check, finding, trace, indent + 2)),
        *row("Rule", rule, indent + 2),
    ]


def check_lines(check: CheckShown, finding: Finding, trace: Trace, indent: int) -> list[Line]:
    """Return what was found, what was asked with the source of that limit, and how far apart they lie."""
    return [
        *row("Found", f"{check.name}: {check.found.shown}", indent),
        *row("Asked", asked(check, trace), indent),
        *row("Distance", distance(check, finding), indent),
    ]


def asked(check: CheckShown, trace: Trace) -> str:
    """Return what a check asks, with the source of each limit it asks it against."""
    rests = trace.nodes[check.node].rests_on if check.node in trace.nodes else ()
    limits = [node for each in rests if isinstance(node := trace.nodes.get(each), LimitUsed)]
    return "; ".join([check.wanted, *(f"limit from {each.source}" for each in limits)])


def distance(check: CheckShown, finding: Finding) -> str:
    """Return how far a number lies from its limit, and on which side; empty where there is no distance."""
    far = margin(check)
    if not far:
        return ""
    if check.outcome == "undecided":
        return f"{far}: too close to call, the interval reaches over the limit"
    holds = check.outcome == "holds"
    if finding.stance in AGAINST:
        return f"past the limit by {far}" if holds else f"clear of the limit by {far}"
    return f"met by {far}" if holds else f"missed by {far}"


def standing(finding: Finding) -> str:
    """Return what kind of rule it is: shipped or of the house, sealed or not."""
    origin = "house rule" if finding.layer == "house" else "shipped rule"
    return f"{origin}, sealed" if finding.sealed else origin


def short(finding: Finding) -> str:
    """Return a finding in a sentence or two, with its distance or with what is unknown."""
    far = next((said for check in finding.checks if (said := distance(check, finding))), "")
    unknown = dict.fromkeys(check.name for check in finding.checks if check.found.unknown is not None)
    if not far and unknown:
        far = f"unknown: {', '.join(unknown)}"
    return f"{stop(finding.text)} {stop(capital(far))}" if far else stop(finding.text)
