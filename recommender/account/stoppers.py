"""The few findings that stopped a side, each with every remedy it stopped."""

from collections.abc import Sequence
from typing import NamedTuple

from recommender.deciding.answer import Finding, OptionShown, SideShown

TELLING = {
    "ruled_out": ("bars",),
    "unsettled": ("open", "asks"),
    "cleared_with_cautions": ("cautions",),
}


class Stopper(NamedTuple):
    """A finding in its clearest instance, and the titles of the remedies it stopped; none when it stops the side."""

    finding: Finding
    remedies: tuple[str, ...]


class _Stopped(NamedTuple):
    """One option that was stopped: the title of its remedy and what stopped it."""

    remedy: str
    findings: tuple[Finding, ...]


def telling(option: OptionShown) -> tuple[Finding, ...]:
    """Return the findings that made the outcome of an option what it is."""
    if option.outcome == "not_applicable":
        return tuple(each for each in option.findings if each.stance == "supports")
    counted = TELLING.get(option.outcome, ())
    return tuple(each for each in option.findings if each.counts_as in counted)


def stoppers(side: SideShown) -> tuple[Stopper, ...]:
    """Return the fewest findings that explain a refusal or an open verdict, the widest reaching first.

    Findings about frame or side stand by themselves, those that hold first. Else findings are taken one by one,
    always the one that stops the most options not yet explained, so that one oval bore is told once and not five
    times.
    """
    about_options = {each.node for remedy in side.remedies for option in remedy.options for each in option.findings}
    general = {each.rule: each for each in side.stopped_by if each.node not in about_options}
    if general:
        ordered = sorted(general.values(), key=lambda each: each.outcome != "holds")
        return tuple(Stopper(each, ()) for each in ordered)
    return _cover(_stopped(side))


def _stopped(side: SideShown) -> list[_Stopped]:
    wanted = ("ruled_out", "not_applicable") if side.verdict == "refuse" else ("unsettled",)
    nodes = {each.node for each in side.stopped_by}
    found = [
        _Stopped(remedy.title, tuple(each for each in telling(option) if each.node in nodes))
        for remedy in side.remedies for option in remedy.options if option.outcome in wanted
    ]  # fmt: skip
    return [each for each in found if each.findings]


def _cover(left: Sequence[_Stopped]) -> tuple[Stopper, ...]:
    taken: list[Stopper] = []
    while left:
        rules = sorted({each.rule for stopped in left for each in stopped.findings})
        widest = max(rules, key=lambda rule: (_count(rule, left), _clearness(rule, left)))
        stopped = [each for each in left if _by(widest, each)]
        clearest = max((_by(widest, each) for each in stopped), key=lambda found: farthest(found[0]))[0]
        taken.append(Stopper(clearest, tuple(dict.fromkeys(each.remedy for each in stopped))))
        left = [each for each in left if not _by(widest, each)]
    return tuple(taken)


def _by(rule: str, stopped: _Stopped) -> list[Finding]:
    return [each for each in stopped.findings if each.rule == rule]


def _count(rule: str, left: Sequence[_Stopped]) -> int:
    return sum(bool(_by(rule, each)) for each in left)


def _clearness(rule: str, left: Sequence[_Stopped]) -> float:
    return max(farthest(each) for stopped in left for each in _by(rule, stopped))


def farthest(finding: Finding) -> float:
    """Return how far the clearest number of a finding lies from its limit, in spreads; 0 where it has none."""
    return max((abs(each.spreads) for each in finding.checks if each.spreads is not None), default=0.0)
