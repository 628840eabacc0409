"""Fingerprints of sealed rules, and the check that none is missing or changed."""

from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, Any

from recommender.ground.flaw import Flaw
from recommender.ground.place import Place
from recommender.ground.suggest import nearest
from recommender.rulebook.book import Rule, Rulebook
from recommender.rulebook.canonical import digest, plain
from recommender.rulebook.grid import AnswerGrid, answered_by
from recommender.rulebook.required import BEHIND
from recommender.rulebook.vocabulary import lists_behind

if TYPE_CHECKING:
    from recommender.rulebook.gather import Gathered

REMEDY_FLAGS = ("reversible", "makes", "consent")
INSTRUMENT_FLAGS = ("sees", "decides_fit")


def seal_of(rule: Rule, book: Rulebook) -> str:
    """Return the fingerprint of a rule: what it asks, of whom, what follows, and everything in the book it reaches."""
    return digest(reach(rule, book))


def reach(rule: Rule, book: Rulebook) -> dict[str, Any]:
    """Return, as plain data, the condition, stance and subject of a rule and what it reaches in the book.

    These are value, unit and safe side of its limits and of those its facts rest on, the grids and word lists behind
    its facts, the flags of its remedies, and what the instruments count for when it asks about evidence.
    """
    lists = {name: words for fact in rule.facts for name, words in lists_behind(fact, book.words).items()}
    remedies = [each for each in book.remedies if rule.about.kind == "remedies" and each.id in rule.about.names]
    grids = {grid.id: plain(grid.table) for grid in grids_reached(rule, book)}
    asks_evidence = any(fact.startswith("evidence.") for fact in rule.facts)
    return {
        **({"grids": grids} if grids else {}),
        "condition": plain(rule.condition),
        "stance": rule.stance,
        "if_undecided": rule.if_undecided,
        "about": [rule.about.kind, *sorted(rule.about.names)],
        "limits": {name: [book.limits[name].value, book.limits[name].unit, book.limits[name].safe_side]
                   for name in limits_reached(rule, book) if name in book.limits},
        "words": lists,
        "lists": plain(book.lists) if lists else {},
        "remedies": {each.id: [getattr(each, flag) for flag in REMEDY_FLAGS] for each in remedies},
        "instruments": {each.id: [getattr(each, flag) for flag in INSTRUMENT_FLAGS]
                        for each in book.instruments.values() if asks_evidence},
    }  # fmt: skip


def limits_reached(rule: Rule, book: Rulebook) -> tuple[str, ...]:
    """Return the ids of the limits a rule compares with, and of those its facts rest on."""
    behind = (name for fact in rule.facts for name in BEHIND.get(fact, ()))
    return (*rule.limits, *behind, *(name for grid in grids_reached(rule, book) for name in grid.limits))


def grids_reached(rule: Rule, book: Rulebook) -> tuple[AnswerGrid, ...]:
    """Return the grids that answer facts a rule asks."""
    found = (answered_by(fact, book.grids) for fact in rule.facts)
    return tuple(grid for grid in found if grid is not None)


def seals(book: Rulebook, ids: Iterable[str]) -> dict[str, str]:
    """Return the fingerprint of every rule of these ids that the book has."""
    wanted = set(ids)
    return {rule.id: seal_of(rule, book) for rule in book.rules if rule.id in wanted}


def seal_flaws(
    book: Rulebook, gathered: "Gathered", ids: Iterable[str], sealed: Mapping[str, str], folder: Place
) -> Iterator[Flaw]:
    """Yield a flaw for every sealed rule that is missing or is not as it was released."""
    found = seals(book, ids)
    for name in ids:
        if name not in found:
            yield _missing(name, gathered, folder)
        elif sealed.get(name) != found[name]:
            yield _changed(book.rule(name), gathered, book)


def _missing(name: str, gathered: "Gathered", folder: Place) -> Flaw:
    close = nearest(name, gathered.rules)
    hint = f" The nearest rule there is `{close}`." if close else ""
    message = f"the sealed rule `{name}` is missing"
    return Flaw("rules.seal-missing", folder, message, f"Restore it as it was released; it protects people.{hint}")


def _changed(rule: Rule, gathered: "Gathered", book: Rulebook) -> Flaw:
    reached = [f"the limit {name}" for name in limits_reached(rule, book)]
    reached += [f"the grid {grid.id}" for grid in grids_reached(rule, book)]
    reached += [f"the flags of {name}" for name in rule.about.names]
    if any(fact.startswith("damage.") for fact in rule.facts):
        reached.append("the word lists of signs, places and looks")
    if any(fact.startswith("evidence.") for fact in rule.facts):
        reached.append("what each instrument sees and whether it decides a fit")
    rest = f", and {', '.join(reached)}" if reached else ""
    message = f"the sealed rule `{rule.id}` is not as it was released"
    advice = f"Restore its condition, stance and subject{rest}. A house file may add a stricter rule beside it."
    return gathered.rules[rule.id].flaw("seal-changed", message, advice)
