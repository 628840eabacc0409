"""House acts on the shipped rules: read, checked, applied. Never a merge, never in silence."""

from collections.abc import Callable, Iterable
from copy import copy
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any

from recommender.ground.flaw import Flaw, Flawed
from recommender.reading.document import Document
from recommender.reading.validate import validated
from recommender.rulebook.acts import added_change, limit_change, replaced_change, withdrawn_change
from recommender.rulebook.assemble import book_of
from recommender.rulebook.book import HouseChange, Rulebook
from recommender.rulebook.gather import Entry, Gathered
from recommender.rulebook.models.common import SourceModel
from recommender.rulebook.models.house import Change, HouseFile, Replace, Withdraw

SECTIONS = ("rules", "grids", "limits", "parts")
PREFIX = "house."


def with_house(
    shipped: Rulebook, gathered: Gathered, documents: Iterable[Document], on: date | None, sealed: Iterable[str]
) -> Rulebook:
    """Return the book with the acts in force on a day; raises Flawed with every flaw of the house files."""
    overlay = _Overlay(shipped, _copied(gathered), on, frozenset(sealed))
    for document, file in _house_files(documents):
        overlay.take(document, file)
    if overlay.flaws or overlay.gathered.flaws:
        raise Flawed([*overlay.flaws, *overlay.gathered.flaws])
    book = book_of(overlay.gathered, overlay.sealed, run="house")
    return replace(
        book, edited=shipped.edited, house_changes=tuple(overlay.in_force), house_void=tuple(overlay.void)
    )


def expired(change: HouseChange, on: date | None) -> bool:
    """Return whether a change is void on a day: it could make a decision milder and its review is overdue."""
    return on is not None and change.looser and on > change.review_by


@dataclass(slots=True)
class _Overlay:
    shipped: Rulebook
    gathered: Gathered
    on: date | None
    sealed: frozenset[str]
    in_force: list[HouseChange] = field(default_factory=list)
    void: list[HouseChange] = field(default_factory=list)
    flaws: list[Flaw] = field(default_factory=list)
    seen: dict[str, Entry[Any]] = field(default_factory=dict)

    def take(self, document: Document, file: HouseFile) -> None:
        """Check and apply everything in one house file."""
        for index, act in enumerate(file.house):
            self._act(Entry(_target(act), act, document, ("house", index), "house"))
        for index, rule in enumerate(file.rules):
            self._add("rules", Entry(rule.id, rule, document, ("rules", index), "house"))
        for section in ("grids", "limits", "parts"):
            for name, model in getattr(file, section).items():
                self._add(section, Entry(name, model, document, (section, name), "house"))

    def _act(self, entry: Entry[Any]) -> None:
        first = self.seen.setdefault(entry.id, entry)
        if first is not entry:
            advice = f"The first one stands at {first.place()}; keep one of them."
            self.flaws.append(entry.flaw("house-twice", f"a second act on `{entry.id}`", advice))
            return
        if isinstance(entry.model, Change):
            self._apply(entry, limit_change(entry, self.shipped, self.sealed), self._move)
        elif isinstance(entry.model, Withdraw):
            self._apply(entry, withdrawn_change(entry, self.shipped), self._withdraw)
        else:
            self._apply(entry, replaced_change(entry, self.shipped), self._replace)

    def _add(self, section: str, entry: Entry[Any]) -> None:
        if not entry.id.startswith(PREFIX):
            message = f"`{entry.id}` is added by the house, and its id does not say so"
            self.flaws.append(entry.flaw("house-id", message, f"Rename it to `{PREFIX}{entry.id}`."))
            return
        kept = getattr(self.gathered, section)
        self._apply(entry, added_change(entry, section), lambda added: self.gathered.keep(kept, added))

    def _apply(self, entry: Entry[Any], made: HouseChange | list[Flaw], do: Callable[[Entry[Any]], None]) -> None:
        if isinstance(made, list):
            self.flaws += made
        elif expired(made, self.on):
            self.void.append(made)
        else:
            self.in_force.append(made)
            do(entry)

    def _move(self, entry: Entry[Change]) -> None:
        limit = self.gathered.limits[entry.id]
        value = entry.model.to.to(limit.model.unit)
        source = SourceModel(kind="shop", text=entry.model.reason)
        moved = limit.model.model_copy(update={"value": round(value, 9), "source": source})
        self.gathered.limits[entry.id] = Entry(entry.id, moved, entry.document, entry.path, "house")

    def _withdraw(self, entry: Entry[Withdraw]) -> None:
        del self.gathered.rules[entry.id]

    def _replace(self, entry: Entry[Replace]) -> None:
        rule, grid = entry.model.rule, entry.model.grid
        if rule is not None:
            self.gathered.rules[entry.id] = Entry(entry.id, rule, entry.document, (*entry.path, "rule"), "house")
        if grid is not None:
            words = tuple(row.gives for row in self.gathered.grids[entry.id].model.rows)
            self.gathered.retired[grid.answers] = words
            self.gathered.grids[entry.id] = Entry(entry.id, grid, entry.document, (*entry.path, "grid"), "house")


def _target(act: Change | Withdraw | Replace) -> str:
    if isinstance(act, Change):
        return act.change
    return act.withdraw if isinstance(act, Withdraw) else act.replace


def _house_files(documents: Iterable[Document]) -> list[tuple[Document, HouseFile]]:
    read: list[tuple[Document, HouseFile]] = []
    flaws: list[Flaw] = []
    for document in documents:
        try:
            read.append((document, validated(document, HouseFile)))
        except Flawed as refused:
            flaws += refused.flaws
    if flaws:
        raise Flawed(flaws)
    return read


def _copied(gathered: Gathered) -> Gathered:
    copied = copy(gathered)
    for section in SECTIONS:
        setattr(copied, section, dict(getattr(gathered, section)))
    copied.flaws, copied.retired = [], {}
    return copied
