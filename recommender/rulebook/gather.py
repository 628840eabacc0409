"""What all files say together, before it is resolved: every entry with the file and place it stands at."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Generic, TypeVar

from recommender.ground.flaw import Flaw, Flawed, flaw
from recommender.ground.place import Place
from recommender.reading.document import Document, Path
from recommender.reading.validate import validated
from recommender.rulebook.book import Layer
from recommender.rulebook.models.file import RuleFile
from recommender.rulebook.models.grids import GridModel
from recommender.rulebook.models.limits import LimitModel
from recommender.rulebook.models.rules import RuleModel
from recommender.rulebook.models.shells import FitClassModel, StandardModel
from recommender.rulebook.models.stock import (
    BearingModel,
    CompoundModel,
    InstrumentModel,
    MaterialModel,
    PartModel,
    SpreadModel,
)
from recommender.rulebook.models.texts import CauseModel, RemedyModel, TableModel

M = TypeVar("M", covariant=True)
NAMED_BY = ("id", "change", "withdraw", "replace")
WORDING = ("cautions", "deferrals", "actions", "owner")


@dataclass(frozen=True, slots=True)
class Entry(Generic[M]):
    """One entry of a section: its id, its model, and where it stands."""

    id: str
    model: M
    document: Document
    path: Path
    layer: Layer = "shipped"

    def place(self, *below: str | int, key: bool = False) -> Place:
        """Return where something of this entry stands; without a path, where the entry starts."""
        return self.document.place((*self.path, *below), key=key or not below)

    def flaw(self, check: str, message: str, advice: str, *below: str | int, key: bool = False) -> Flaw:
        """Return a flaw at a place of this entry; without a path, at the line that names it."""
        place = self.place(*below, key=key) if below or key else self._name()
        return flaw(f"rules.{check}", place, self.document.text, message, advice)

    def _name(self) -> Place:
        named = (spot for each in NAMED_BY if (spot := self.document.places.get((*self.path, each))) is not None)
        spot = next(named, None)
        if spot is None or spot.key is None:
            return self.place()
        return spot.key._replace(end_line=spot.value.end_line, end_column=spot.value.end_column)


@dataclass(slots=True)
class Gathered:
    """Every section of all files together, by id; entries that stand twice are kept in `flaws`.

    `retired` are the words that grids a house replaced gave for a fact: shipped rules may still ask them.
    """

    limits: dict[str, Entry[LimitModel]] = field(default_factory=dict)
    grids: dict[str, Entry[GridModel]] = field(default_factory=dict)
    rules: dict[str, Entry[RuleModel]] = field(default_factory=dict)
    remedies: dict[str, Entry[RemedyModel]] = field(default_factory=dict)
    standards: dict[str, Entry[StandardModel]] = field(default_factory=dict)
    fit_classes: dict[str, Entry[FitClassModel]] = field(default_factory=dict)
    materials: dict[str, Entry[MaterialModel]] = field(default_factory=dict)
    instruments: dict[str, Entry[InstrumentModel]] = field(default_factory=dict)
    spreads: dict[str, Entry[SpreadModel]] = field(default_factory=dict)
    bearings: dict[str, Entry[BearingModel]] = field(default_factory=dict)
    compounds: dict[str, Entry[CompoundModel]] = field(default_factory=dict)
    parts: dict[str, Entry[PartModel]] = field(default_factory=dict)
    tables: dict[str, Entry[TableModel]] = field(default_factory=dict)
    causes: dict[str, Entry[CauseModel]] = field(default_factory=dict)
    words: dict[str, Entry[dict[str, str]]] = field(default_factory=dict)
    lists: dict[str, Entry[list[str]]] = field(default_factory=dict)
    wording: dict[str, dict[str, Entry[str]]] = field(default_factory=dict)
    standing: tuple[str, ...] = ()
    retired: dict[str, tuple[str, ...]] = field(default_factory=dict)
    flaws: list[Flaw] = field(default_factory=list)

    def keep(self, section: dict[str, Entry[M]], entry: Entry[M]) -> None:
        """Keep an entry; one whose id is taken becomes a flaw that names the first place."""
        first = section.get(entry.id)
        if first is None:
            section[entry.id] = entry
            return
        advice = f"The first one stands at {first.place()}; rename or remove one of them."
        self.flaws.append(entry.flaw("duplicate-id", f"`{entry.id}` stands here a second time", advice))


MAPPINGS = (
    "limits", "grids", "remedies", "standards", "fit_classes", "materials", "instruments", "spreads", "bearings",
    "compounds", "parts", "tables", "causes", "words", "lists",
)  # fmt: skip


def gather(documents: Iterable[Document]) -> Gathered:
    """Return what the documents say together; raises Flawed with every flaw a single file has in itself."""
    read: list[tuple[Document, RuleFile]] = []
    flaws: list[Flaw] = []
    for document in documents:
        try:
            read.append((document, validated(document, RuleFile)))
        except Flawed as refused:
            flaws += refused.flaws
    if flaws:
        raise Flawed(flaws)
    gathered = Gathered()
    for document, file in read:
        _take(gathered, document, file)
    return gathered


def _take(gathered: Gathered, document: Document, file: RuleFile) -> None:
    for section in MAPPINGS:
        for name, model in getattr(file, section).items():
            gathered.keep(getattr(gathered, section), Entry(name, model, document, (section, name)))
    for index, rule in enumerate(file.rules):
        gathered.keep(gathered.rules, Entry(rule.id, rule, document, ("rules", index)))
    for kind in WORDING:
        _take_texts(gathered, document, kind, getattr(file.wording, kind))
    for language, model in file.wording.translated.items():
        for kind, texts in model.model_dump().items():
            _take_texts(gathered, document, f"{language}/{kind}", texts, ("wording", "translated", language, kind))
    if file.wording.notices is not None:
        notices = file.wording.notices.model_dump()
        gathered.standing += tuple(notices.pop("standing"))
        _take_texts(gathered, document, "notices", notices)


def _take_texts(
    gathered: Gathered, document: Document, kind: str, texts: Mapping[str, str], path: Path | None = None
) -> None:
    kept = gathered.wording.setdefault(kind, {})
    for name, text in texts.items():
        gathered.keep(kept, Entry(name, text, document, (*(path or ("wording", kind)), name)))


