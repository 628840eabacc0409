"""The reasoning: every remedy, what stopped it and by how much, what was kept, what would change it, which causes."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from recommender.account.finding_text import distance, readable_words
from recommender.account.nearest_text import told
from recommender.account.numbers import with_interval
from recommender.account.page_fits import best_option
from recommender.account.page_kept import Kept, kept_limits
from recommender.account.page_matter import Matter, Row, option_of, row, side_title
from recommender.account.page_told import Told, fact
from recommender.account.stoppers import stoppers, telling
from recommender.account.words import CAUSES, OUTCOMES, SIDES, capital, readable, side_verdict, stop
from recommender.deciding.answer import CheckShown, Finding, OptionShown, Question, RemedyShown, SideShown
from recommender.deciding.trace import LimitUsed, Trace

NUMBERS = {"fit.mean_interference": "mean", "fit.tightest_interference": "tightest"}


class Step(NamedTuple):
    """One check behind a finding: what was found and wanted, and the distance."""

    found: Told
    wanted: Told
    far: Told


class Reason(NamedTuple):
    """A finding in words with the checks that decided it and the rule behind it."""

    text: Told
    steps: Sequence[Step]
    rule: str
    source: Told
    sealed: bool


class Considered(NamedTuple):
    """A remedy that was weighed: what became of it, the fit of its best part, and what decided."""

    title: str
    outcome: str
    chosen: bool
    part: Told | None
    fit: Sequence[Told]
    reasons: Sequence[Reason]
    others: int
    nearest: Sequence[Told] = ()
    gates: Told | None = None


class Reasoning(NamedTuple):
    """Why one side was decided so."""

    title: str
    verdict: str
    reason: Told
    deciding: Sequence[Reason]
    kept: Sequence[Kept]
    considered: Sequence[Considered]


class Cause(NamedTuple):
    """One way a bore may have come to be: what speaks for it, against it, and what is open."""

    side: str
    name: str
    speaks_for: Sequence[Told]
    speaks_against: Sequence[Told]
    open: Sequence[Told]


def reasonings(matter: Matter) -> list[Reasoning]:
    """Return why each side was decided so; nothing is weighed against damage."""
    return [_reasoning(matter, name, side) for name, side, _ in matter.sides()]


def causes(matter: Matter) -> list[Cause]:
    """Return the evidence for and against each cause anything speaks about."""
    return [
        Cause(side_title(each.side), CAUSES.get(each.cause, readable(each.cause)), *map(_texts, (
            each.speaks_for, each.speaks_against, each.open)))
        for each in matter.advice.causes if each.speaks_for or each.speaks_against
    ]  # fmt: skip


def questions(matter: Matter) -> list[Row]:
    """Return what is to be done about each open question and what it would settle, each thing to do once."""
    asked: dict[str, list[Question]] = {}
    for each in matter.advice.questions:
        asked.setdefault(each.do, []).append(each)
    return [row(Told(do, f"words:questions/{do}"), *map(_asked, found)) for do, found in asked.items()]


def _asked(question: Question) -> Told:
    return Told(f"{side_of(question)}{question.name}: settles {_settles(question)}", "advice:questions")


def side_of(question: Question) -> str:
    """Return the side a question is about, in front of it."""
    return f"{SIDES[question.side]}: " if question.side else ""


def limits_used(matter: Matter) -> list[LimitUsed]:
    """Return every limit the findings of this page were held against, sorted by name."""
    nodes = matter.advice.trace.nodes
    found = {each for finding in _findings(matter) for check in finding.checks for each in _rests(matter, check)}
    return [node for each in sorted(found) if isinstance(node := nodes[each], LimitUsed)]


def _rests(matter: Matter, check: CheckShown) -> Sequence[str]:
    node = matter.advice.trace.nodes.get(check.node)
    return [] if node is None else [each for each in node.rests_on if each.startswith("limit:")]


def _findings(matter: Matter) -> Iterator[Finding]:
    yield from matter.advice.frame.findings
    for _, side, _ in matter.sides():
        yield from (*side.findings, *side.stopped_by)
        yield from (each for remedy in _weighed(matter, side) for option in remedy.options for each in telling(option))
    for cause in matter.advice.causes:
        yield from (*cause.speaks_for, *cause.speaks_against)


def _reasoning(matter: Matter, name: str, side: SideShown) -> Reasoning:
    option = option_of(side)
    trace = matter.advice.trace
    deciding = [] if option is not None else [_reason(each.finding, trace) for each in stoppers(side)]
    supports = [] if option is None else [each for each in option.findings if each.counts_as == "supports"]
    verdict = capital(side_verdict(matter.advice, name))
    return Reasoning(
        side_title(name), verdict, Told(stop(side.reason), side.node),
        deciding or [_reason(each, trace) for each in supports],
        [] if option is None else kept_limits(trace, option),
        [_considered(each, side, trace)._replace(nearest=_nearest(matter, name, each.id))
         for each in _weighed(matter, side)],
    )  # fmt: skip


def _weighed(matter: Matter, side: SideShown) -> Sequence[RemedyShown]:
    """Return the remedies told of: none beside damage, so that nothing reads like a way round it."""
    return [] if matter.advice.frame.damage and side.verdict == "refuse" else side.remedies


def _considered(remedy: RemedyShown, side: SideShown, trace: Trace) -> Considered:
    option = best_option(remedy, side)
    outcome = OUTCOMES.get(remedy.outcome, remedy.outcome)
    chosen = remedy.id == side.remedy
    if option is None:
        return Considered(remedy.title, f"{outcome}; no part could be used for it here", chosen, None, (), (), 0)
    reasons = [] if chosen else [_reason(each, trace) for each in telling(option)]
    others = len(remedy.options) - 1
    part = Told(readable(option.part), option.node)
    return Considered(remedy.title, outcome, chosen, part, _fit(option), reasons, others, (), _gates(option))


def _gates(option: OptionShown) -> Told | None:
    """Return how fit class and physics disagree on an option."""
    return Told(option.disagreement, option.node) if option.disagreement else None


def _nearest(matter: Matter, side: str, remedy: str) -> list[Told]:
    """Return what would clear a remedy that lost."""
    lost = [each for each in matter.lost if (each.side, each.remedy) == (side, remedy)]
    return [Told(text, f"nearest:{side}/{remedy}") for each in lost for text in told(each)]


def _fit(option: OptionShown) -> list[Told]:
    where = option.node.removeprefix("contest/")
    known = {key: found for key in NUMBERS if (found := option.facts.get(key)) is not None and found.unknown is None}
    shown = {key: fact(found, f"{where}/{key}") for key, found in known.items()}
    return [each._replace(text=f"{NUMBERS[key]} {each.text}") for key, each in shown.items()]


def _reason(finding: Finding, trace: Trace) -> Reason:
    steps = [_step(check, finding, trace) for check in finding.checks]
    source = Told(finding.source.text, finding.node)
    return Reason(Told(stop(finding.text), finding.node), steps, finding.rule, source, finding.sealed)


def _step(check: CheckShown, finding: Finding, trace: Trace) -> Step:
    assumed = bool(check.found.assumed)
    node = trace.nodes.get(check.node)
    limits = [each for each in node.rests_on if each.startswith("limit:")] if node is not None else []
    wanted = Told(readable_words(check.wanted), limits[0] if len(limits) == 1 else check.node)
    found = Told(f"{check.name}: {with_interval(check.found)}", check.node, assumed)
    return Step(found, wanted, Told(distance(check, finding), check.node))


def _texts(findings: Sequence[Finding]) -> list[Told]:
    return [Told(stop(each.text), each.node) for each in findings]


def _settles(question: Question) -> str:
    names = [each.replace("/", ": ").replace("non_drive", "non-drive") for each in question.would_settle]
    return ", ".join(readable(each) for each in dict.fromkeys(names))
