"""Builds the trace of a decision: verdicts rest on contests and runs, runs on checks, checks on facts and limits."""

from collections.abc import Iterable, Mapping
from itertools import chain

from recommender.deciding import trace
from recommender.deciding.answer import Question, Words
from recommender.deciding.because import margin_shown, shown_fact, wanted
from recommender.deciding.contest import cautioning, holding, not_failing, of_stance
from recommender.deciding.decide import Decision
from recommender.deciding.frame import verdict_of_side
from recommender.deciding.options import OptionResult, RemedyResult
from recommender.deciding.provenance import Provenance
from recommender.deciding.runs import Run, every_run
from recommender.deciding.settling import to_settle
from recommender.deciding.sides import SideDecision
from recommender.deriving.derived import Derived, Make, SideName
from recommender.logic.evaluate import Check, Result
from recommender.rulebook.book import Rulebook

SIZES_SHOWN = ("bore.mouth_diameter", "bore.inner_diameter", "bore.widest_diameter")


class Tracer:
    """Gathers the nodes of one decision."""

    def __init__(self, derived: Derived, book: Rulebook) -> None:
        """Start without nodes."""
        self.nodes: dict[str, trace.Node] = {}
        self._book = book
        self._provenance = Provenance(derived, book, self.nodes)

    def run(self, run: Run) -> str:
        """Keep a run with everything it rests on."""
        base = f"{run.rule.id}@{run.subject}"
        top = self._result(run.result, base, "", run)
        rule = run.rule
        return self._keep(trace.RuleRun(run.id, rule.place, (top,), rule.id, run.subject, rule.stance, run.outcome))

    def option(self, result: OptionResult) -> str:
        """Keep the contest of an option, resting on the runs that decided it and the limits that bind its size."""
        rests = (*(run.id for run in deciding_runs(result)), *self.limits(result.option.make))
        return self._keep(trace.Contest(f"contest/{result.subject}", None, rests, result.subject, result.outcome))

    def remedy(self, result: RemedyResult, side: SideName) -> str:
        """Keep the contest of a remedy, resting on its options."""
        subject = f"{side}/{result.remedy.id}"
        rests = tuple(self.option(each) for each in result.options)
        return self._keep(trace.Contest(f"contest/{subject}", None, rests, subject, result.outcome))

    def side(self, name: SideName, side: SideDecision, decision: Decision) -> str:
        """Keep the verdict of a side, resting on the runs that decided it and on every remedy."""
        remedies = tuple(self.remedy(each, name) for each in side.remedies)
        rests = (*dict.fromkeys(run.id for run in side.because), *self._crack(decision), *remedies)
        verdict = verdict_of_side(side, decision.frame)
        return self._keep(trace.Verdict(f"verdict/{name}", None, rests, name, verdict, side.reason))

    def frame(self, decision: Decision, sides: Iterable[str], deferrals: Iterable[str]) -> str:
        """Keep the verdict of the frame, resting on both sides, on undecided stops and on what is left to others."""
        stops = tuple(run.id for run in (*decision.frame.because, *holding(decision.runs.frame, "stops_work")))
        rests = (*dict.fromkeys(stops), *self._crack(decision), *sides, *deferrals)
        reason = " ".join(decision.frame.reasons)
        return self._keep(trace.Verdict("verdict/frame", None, rests, "frame", decision.frame.verdict, reason))

    def deferral(self, name: str, rests_on: Iterable[str], text: str) -> str:
        """Keep something left to others or to be settled first."""
        return self._keep(trace.Deferral(name, None, tuple(each for each in rests_on if each in self.nodes), text))

    def without_a_run(self, question: Question, decision: Decision) -> tuple[str, ...]:
        """Return what a question rests on that no rule asks: the parts chosen, or the fact itself."""
        if decision.frame.choose == question.do:
            return tuple(f"contest/{side.chosen.subject}" for side in decision.sides.values() if side.chosen)
        return (self._provenance.fact(question.fact, question.side or "frame"),) if question.fact else ()

    def sizes(self, derived: Derived) -> None:
        """Keep the sizes of each bore that no rule asks about but the written account shows."""
        for name, side in derived.sides.items():
            for fact in SIZES_SHOWN:
                if fact in side.facts:
                    self._provenance.fact(fact, name)

    def limits(self, make: Make | None) -> tuple[str, ...]:
        """Keep the limits that bind the diameter of a part to be made, or that leave none."""
        if make is None:
            return ()
        collided = make.collision and (make.collision.low_limit, make.collision.high_limit)
        named = dict.fromkeys((*(make.bound_by or ()), *(collided or ())))
        return tuple(self._provenance.limit(each) for each in named if each in self._book.limits)

    def _crack(self, decision: Decision) -> tuple[str, ...]:
        return (self._provenance.fact("damage.crack", "frame"),) if decision.crack else ()

    def _result(self, result: Result, base: str, path: str, run: Run) -> str:
        if isinstance(result, Check):
            return self._check(result, f"check/{base}{path}", run)
        parts = tuple(self._result(part, base, f"{path}/{number}", run) for number, part in enumerate(result.parts, 1))
        return self._keep(trace.Group(f"group/{base}{path}", result.place, parts, result.kind, result.outcome))

    def _check(self, check: Check, name: str, run: Run) -> str:
        leaf = check.leaf
        limits = tuple(self._provenance.limit(each.limit) for each in leaf.wanted if each.limit)
        fact = self._provenance.fact(leaf.fact.id, run.subject)
        return self._keep(trace.Check(
            name, leaf.place, (fact, *limits), leaf.fact.id, check.outcome, shown_fact(check.found, leaf.fact),
            wanted(check), margin_shown(check),
        ))

    def _keep(self, node: trace.Node) -> str:
        self.nodes[node.id] = node
        return node.id


def deciding_runs(result: OptionResult) -> tuple[Run, ...]:
    """Return the runs that made an option's outcome what it is."""
    if result.outcome == "ruled_out":
        return holding(result.runs, "rules_out")
    if result.outcome == "not_applicable":
        return of_stance(result.runs, "supports")
    if result.outcome == "unsettled":
        return result.open
    return (*of_stance(result.runs, "rules_out"), *not_failing(result.runs, "supports"), *cautioning(result.runs))


def traced(
    decision: Decision, derived: Derived, book: Rulebook, questions: tuple[Question, ...], left: tuple[Words, ...]
) -> trace.Trace:
    """Return the trace of a decision: every run, every contest, the verdicts, and what is open or left to others."""
    return trace.Trace(trace.Later(
        lambda: _nodes(decision, derived, book, questions, left), lambda: _spoken_of(decision, derived, book)
    ))


def _spoken_of(decision: Decision, derived: Derived, book: Rulebook) -> dict[str, trace.Node]:
    """Return what a short answer is worded from: limits that bind a diameter, runs on the choice that do not fail."""
    tracer = Tracer(derived, book)
    for side in derived.sides.values():
        for option in side.options:
            tracer.limits(option.make)
    chosen = [side.chosen.runs for side in decision.sides.values() if side.chosen]
    general = [side.general for side in decision.runs.sides.values()]
    for run in chain(decision.runs.frame, *general, *chosen):
        if run.outcome != "fails":
            tracer.run(run)
    return tracer.nodes


def _nodes(
    decision: Decision, derived: Derived, book: Rulebook, questions: Iterable[Question], left: Iterable[Words]
) -> dict[str, trace.Node]:
    tracer = Tracer(derived, book)
    runs = {run.id: run for run in every_run(decision.runs)}
    for run in runs.values():
        tracer.run(run)
    sides = tuple(tracer.side(name, side, decision) for name, side in decision.sides.items())
    ids = [tracer.deferral(f"deferral/{each.id}", _runs_of(each.because, runs), each.text) for each in left]
    for each in questions:
        name = f"question/{each.side or 'frame'}/{each.fact} {each.do}"
        rests = _asked_by(each, runs) or tracer.without_a_run(each, decision)
        ids.append(tracer.deferral(name, rests, each.do))
    tracer.sizes(derived)
    tracer.frame(decision, sides, ids)
    return tracer.nodes


def _runs_of(rules: Iterable[str], runs: Mapping[str, Run]) -> list[str]:
    wanted_rules = set(rules)
    return [name for name, run in runs.items() if run.rule.id in wanted_rules and run.outcome != "fails"]


def _asked_by(question: Question, runs: Mapping[str, Run]) -> list[str]:
    """Return the open runs on what a question would settle that its fact would close."""
    near = [run for run in runs.values() if any(_within(run.subject, each) for each in question.would_settle)]
    return [run.id for run in near if run.outcome != "fails"
            and any(each.fact.id == question.fact for each in to_settle(run, ""))]


def _within(subject: str, settled: str) -> bool:
    return subject == settled or subject.startswith(f"{settled}/")
