"""A finding told as at the bench: the sentence, what was found and wanted, the distance, and who says so."""

from recommender.account.limit_words import limits_of
from recommender.account.lines import Line, row, wrapped
from recommender.account.numbers import margin, with_interval
from recommender.account.words import distinct, listed, lower, stop
from recommender.deciding.answer import CheckShown, Finding
from recommender.deciding.trace import Trace

AGAINST = frozenset({"stops_work", "rules_out", "asks_first", "advises_against"})


def finding_lines(finding: Finding, trace: Trace, indent: int = 2, extra: str = "") -> list[Line]:
    """Return a finding in full: its sentence, each deciding check with limit and source, and the rule behind it.

    `extra` names the remedies it stopped, where it is told for all of them at once.
    """
    lead = " " * indent
    rule = f"{finding.rule} ({standing(finding)}); {finding.source.text}"
    return [
        *wrapped(stop(finding.text), lead),
        *(line for check in finding.checks for line in check_lines(check, finding, trace, indent + 2)),
        *row("Stops" if finding.outcome == "holds" else "Keeps open", extra, indent + 2),
        *row("Rule", rule, indent + 2),
    ]


def check_lines(check: CheckShown, finding: Finding, trace: Trace, indent: int) -> list[Line]:
    """Return what was found, when the rule applies with the source of that limit, and how far apart they lie."""
    return [
        *row("Found", f"{check.name}: {with_interval(check.found)}", indent),
        *row("Applies if", asked(check, trace), indent),
        *row("Distance", distance(check, finding), indent),
    ]


def asked(check: CheckShown, trace: Trace) -> str:
    """Return what makes a check hold, with meaning and source of each limit it is held against."""
    limits = (f"limit: {lower(each.meaning)}; {each.source}" for each in limits_of(check, trace))
    return "; ".join([readable_words(check.wanted), *limits])


def readable_words(wanted: str) -> str:
    """Return what a check asks in words, where it asks for `yes` or `no` or whether a thing is known."""
    words = {
        "equals true": "yes", "equals yes": "yes", "equals false": "no", "equals no": "no",
        "known true": "known", "known yes": "known", "known false": "not known", "known no": "not known",
    }  # fmt: skip
    return words.get(wanted, wanted)


def distance(check: CheckShown, finding: Finding) -> str:
    """Return how far a number lies from its limit, and on which side; empty where there is no distance."""
    far = margin(check)
    if not far:
        return ""
    if check.outcome == "undecided":
        return f"too close to call: the middle lies {far}, from the limit"
    holds = check.outcome == "holds"
    if finding.stance in AGAINST:
        return f"past the limit by {far}" if holds else f"clear of the limit by {far}"
    return f"met by {far}" if holds else f"missed by {far}"


def standing(finding: Finding) -> str:
    """Return what kind of rule it is: shipped or of the house, sealed or not."""
    origin = "house rule" if finding.layer == "house" else "shipped rule"
    return f"{origin}, sealed" if finding.sealed else origin


def short(finding: Finding) -> str:
    """Return a finding by its title, with each number and its distance, or else with words and what is unknown."""
    unknown = [check for check in finding.checks if check.found.unknown is not None]
    known = [check for check in finding.checks if check.found.unknown is None]
    numbers = [each for each in known if each.margin is not None]
    told = distinct([*(_short(each, finding) for each in numbers or known), *_unknown(unknown)])
    return f"{finding.title}: {'; '.join(told)}." if told else stop(finding.title)


def _short(check: CheckShown, finding: Finding) -> str:
    far = distance(check, finding)
    value = f"{check.name} {with_interval(check.found)}"
    return f"{value}, {far}" if far else value


def _unknown(checks: list[CheckShown]) -> list[str]:
    by_reason: dict[str, list[str]] = {}
    for each in checks:
        by_reason.setdefault(each.found.unknown or "", []).append(each.name)
    return [f"{listed(distinct(names))} unknown ({why})" for why, names in by_reason.items()]
