"""From gathered files to the effective book: everything resolved, checked and run, without seals."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Any, TypeVar

from recommender.ground.flaw import Flaw, Flawed
from recommender.reading.document import Document
from recommender.rulebook.book import Cause, Limit, Remedy, Rule, Rulebook
from recommender.rulebook.canonical import fingerprint
from recommender.rulebook.examples import unmet_examples, with_examples
from recommender.rulebook.gather import Entry, Gathered, gather
from recommender.rulebook.grids import grids_of
from recommender.rulebook.models.limits import LimitModel
from recommender.rulebook.pieces import (
    bearing_of,
    compound_of,
    fit_class_of,
    instrument_of,
    material_of,
    part_of,
    spread_of,
    standard_of,
    table_of,
)
from recommender.rulebook.references import reference_flaws, silent_remedies
from recommender.rulebook.rules import rule_of
from recommender.rulebook.source import source_of

T = TypeVar("T")


def assemble(documents: Iterable[Document], sealed: Iterable[str] = ()) -> Rulebook:
    """Return the book in the documents; raises Flawed with every flaw found.

    Seals are not checked here and house files are not known here: `load` does both.
    """
    return book_of(gather(documents), sealed)


def book_of(gathered: Gathered, sealed: Iterable[str] = (), run: str = "shipped") -> Rulebook:
    """Return the book in what was gathered; raises Flawed with every flaw found.

    `run` is the layer whose examples are run: a house change may move the limits that shipped examples stand at.
    """
    flaws = [*gathered.flaws, *reference_flaws(gathered)]
    limits = _made(gathered.limits, limit_of)
    grids = grids_of(gathered, limits, run, flaws)
    rules = _rules(gathered, limits, tuple(sealed), run, flaws)
    if not any(flaw.check.startswith("rules.unknown-remedy") for flaw in flaws) and len(rules) == len(gathered.rules):
        flaws += silent_remedies(gathered, rules)
    if flaws:
        raise Flawed(flaws)
    book = Rulebook(
        limits=limits,
        rules=rules,
        remedies=tuple(Remedy(each.id, **each.model.model_dump()) for each in gathered.remedies.values()),
        standards=_made(gathered.standards, lambda entry: standard_of(entry, gathered)),
        fit_classes=_made(gathered.fit_classes, fit_class_of),
        materials=_made(gathered.materials, material_of),
        instruments=_made(gathered.instruments, instrument_of),
        spreads=_made(gathered.spreads, spread_of),
        bearings=_made(gathered.bearings, bearing_of),
        parts=_made(gathered.parts, part_of),
        words=_made(gathered.words, lambda entry: MappingProxyType(dict(entry.model))),
        lists=_made(gathered.lists, lambda entry: tuple(entry.model)),
        tables=_made(gathered.tables, table_of),
        wording=MappingProxyType({kind: _made(texts, _text) for kind, texts in gathered.wording.items()}),
        standing=gathered.standing,
        compounds=_made(gathered.compounds, compound_of),
        grids=MappingProxyType(grids),
        causes=_made(gathered.causes, lambda entry: Cause(entry.id, entry.model.title)),
    )
    return replace(book, fingerprint=fingerprint(book))


def limit_of(entry: Entry[LimitModel]) -> Limit:
    """Return the limit of an entry."""
    model = entry.model
    return Limit(
        entry.id, model.meaning, model.unit, float(model.value), model.safe_side, model.shop_may,
        source_of(model.source), entry.place(), entry.layer,
    )  # fmt: skip


def _rules(
    gathered: Gathered, limits: Mapping[str, Limit], sealed: tuple[str, ...], run: str, flaws: list[Flaw]
) -> tuple[Rule, ...]:
    made: list[Rule] = []
    for entry in gathered.rules.values():
        rule = rule_of(entry, gathered, limits, sealed, flaws)
        if rule is None:
            continue
        before = len(flaws)
        rule = with_examples(rule, entry, gathered, flaws)
        if entry.layer == run and len(flaws) == before:
            flaws += unmet_examples(rule, entry)
        made.append(rule)
    return tuple(sorted(made, key=lambda rule: rule.id))


def _made(entries: Mapping[str, Entry[Any]], make: Callable[[Entry[Any]], T]) -> Mapping[str, T]:
    return MappingProxyType({name: make(entry) for name, entry in entries.items()})


def _text(entry: Entry[str]) -> str:
    return entry.model
