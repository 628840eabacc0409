"""Rules from files to rules of the book, with a flaw for everything that cannot be meant."""

import re
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from recommender.facts.catalogue import CATALOGUE
from recommender.facts.fact import SCOPE_ORDER, Scope
from recommender.ground.flaw import Flaw
from recommender.ground.suggest import did_you_mean
from recommender.logic.conditions import Condition, facts_of, leaves_of, limits_of
from recommender.rulebook.book import Limit, Rule, Subject, SubjectKind
from recommender.rulebook.gather import Entry, Gathered
from recommender.rulebook.models.grids import limits_named
from recommender.rulebook.models.rules import RuleModel
from recommender.rulebook.required import BEHIND
from recommender.rulebook.resolving import Resolver
from recommender.rulebook.source import source_of

STANCES: dict[SubjectKind, tuple[str, ...]] = {
    "frame": ("stops_work", "asks_first", "advises_against"),
    "side": ("stops_work", "asks_first", "advises_against"),
    "remedies": ("rules_out", "asks_first", "advises_against", "supports"),
    "cause": ("supports", "advises_against"),
}
WIDEST: dict[SubjectKind, Scope] = {"frame": "frame", "side": "side", "remedies": "option", "cause": "side"}
PLACEHOLDER = re.compile(r"\{([^{}]*)\}")


def rule_of(
    entry: Entry[RuleModel], gathered: Gathered, limits: Mapping[str, Limit], sealed: Iterable[str], flaws: list[Flaw]
) -> Rule | None:
    """Return the rule of an entry without its examples; None, with its flaws in `flaws`, when it cannot be used."""
    model = entry.model
    resolver = Resolver(entry, gathered, limits)
    condition = resolver.condition()
    subject = _subject(model)
    found = [*resolver.flaws, *_about_flaws(entry, gathered, subject), *_names_flaws(entry, gathered)]
    if condition is not None:
        found += _fact_flaws(entry, subject, condition)
        found += _excuse_flaws(entry, condition, entry.id in set(sealed))
        found += _placeholder_flaws(entry, gathered, condition)
    flaws += found
    if condition is None or found:
        return None
    return Rule(
        model.id, model.title, subject, condition, model.finding.stance, tuple(model.action),
        model.finding.if_undecided, model.because, tuple(model.caution), tuple(model.defer_to),
        source_of(model.source), entry.place(), entry.id in set(sealed), entry.layer, (), limits_of(condition),
        facts_of(condition),
    )  # fmt: skip


def _subject(model: RuleModel) -> Subject:
    about = model.about
    if about.remedies is not None:
        return Subject("remedies", tuple(about.remedies))
    if about.cause is not None:
        return Subject("cause", (about.cause,))
    return Subject(about.kind or "frame")


def _about_flaws(entry: Entry[RuleModel], gathered: Gathered, subject: Subject) -> Iterator[Flaw]:
    for index, name in enumerate(subject.names if subject.kind == "remedies" else ()):
        yield from _unknown(entry, "remedy", name, gathered.remedies, "about", "remedies", index)
    if subject.kind == "cause":
        yield from _unknown(entry, "cause", subject.names[0], gathered.causes, "about", "cause")
    finding = entry.model.finding
    if finding.stance not in STANCES[subject.kind]:
        what = {"remedies": "remedies", "cause": "a cause"}.get(subject.kind, f"the {subject.kind}")
        message = f"a rule about {what} cannot take the stance `{finding.stance}`"
        advice = f"Possible are {', '.join(STANCES[subject.kind])}."
        yield entry.flaw("stance", message, advice, "finding", "stance")
    if finding.stance == "asks_first" and not entry.model.action:
        message = "a rule that asks first does not say what to do"
        yield entry.flaw("action-missing", message, "Add `action:` with ids of wording.actions.", "finding", "stance")


def _names_flaws(entry: Entry[RuleModel], gathered: Gathered) -> Iterator[Flaw]:
    named = {"caution": "cautions", "defer_to": "deferrals", "action": "actions"}
    for key, kind in named.items():
        for index, name in enumerate(getattr(entry.model, key)):
            known = gathered.wording.get(kind, {})
            path = (key, index) if (*entry.path, key, index) in entry.document.places else (key,)
            yield from _unknown(entry, kind.removesuffix("s"), name, known, *path)


def _unknown(
    entry: Entry[RuleModel], kind: str, name: str, known: Mapping[str, Any], *path: str | int
) -> Iterator[Flaw]:
    if name not in known:
        advice = did_you_mean(name, known)
        yield entry.flaw(f"unknown-{kind}", f"there is no {kind} `{name}`", advice, *path)


def _fact_flaws(entry: Entry[RuleModel], subject: Subject, condition: Condition) -> Iterator[Flaw]:
    for leaf in leaves_of(condition):
        if leaf.fact.conformity:
            message = f"{leaf.fact.id} says whether the bore conforms; whether a part fits is another question"
            yield _at(entry, leaf.place, "conformity", message, "Ask a fact about the bore or the fit.")
        elif SCOPE_ORDER[leaf.fact.scope] > SCOPE_ORDER[WIDEST[subject.kind]]:
            message = f"{leaf.fact.id} is known for each {leaf.fact.scope}, and this rule is about {_said(subject)}"
            yield _at(entry, leaf.place, "scope", message, "Ask a fact of the subject, or change `about`.")


def _said(subject: Subject) -> str:
    return {"frame": "the whole frame", "side": "a side", "cause": "a cause on a side"}.get(subject.kind, "remedies")


def _at(entry: Entry[RuleModel], place: Any, check: str, message: str, advice: str) -> Flaw:
    path = next(path for path, spot in entry.document.places.items() if spot.value == place)
    return entry.flaw(check, message, advice, *path[len(entry.path) :], "fact")


def _excuse_flaws(entry: Entry[RuleModel], condition: Condition, sealed: bool) -> Iterator[Flaw]:
    if entry.model.finding.if_undecided is None:
        return
    reasons = {
        "only a rule that rules out may say `if_undecided`": entry.model.finding.stance != "rules_out",
        "a sealed rule never says `if_undecided`": sealed,
        "a house rule never says `if_undecided`": entry.layer == "house",
        "the bench can settle every fact this rule asks": all(
            leaf.fact.bench_can_settle for leaf in leaves_of(condition)
        ),
    }
    first = next((message for message, wrong in reasons.items() if wrong), None)
    if first is not None:
        yield entry.flaw("excuse", first, "Remove `if_undecided`.", "finding", "if_undecided")


def _unused(name: str, known: Iterable[str], gathered: Gathered) -> tuple[str, str]:
    exists = "a fact" if name in CATALOGUE else "a limit" if name in gathered.limits else None
    if exists is None:
        return f"`{{{name}}}` is something this rule does not use", did_you_mean(name, known)
    return f"`{{{name}}}` is {exists} this rule does not use", "Compare with it under `holds_if`, or leave it out here."


def _placeholder_flaws(entry: Entry[RuleModel], gathered: Gathered, condition: Condition) -> Iterator[Flaw]:
    facts = facts_of(condition)
    behind = (limit for fact in facts for limit in BEHIND.get(fact, ()))
    grids = (grid for grid in gathered.grids.values() if grid.model.answers in facts)
    known = {*facts, *limits_of(condition), *behind, *(name for grid in grids for name in limits_named(grid.model))}
    for name in PLACEHOLDER.findall(entry.model.because):
        if name not in known:
            yield entry.flaw("placeholder", *_unused(name, known, gathered), "because")
    if re.search(r"[{}]", PLACEHOLDER.sub("", entry.model.because)):
        yield entry.flaw("placeholder", "a curly bracket has no partner", "Write `{fact or limit}`.", "because")
