"""The effective rule book: what the files say after checks, seals and house changes, ready to decide with."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property
from typing import Literal, NamedTuple

from recommender.facts.value import FactValue
from recommender.ground.place import Place
from recommender.ground.quantity import show
from recommender.logic.board import Board
from recommender.logic.conditions import Condition
from recommender.logic.outcome import Outcome
from recommender.rulebook.grid import AnswerGrid
from recommender.rulebook.remedies import Remedy
from recommender.rulebook.stock import (
    Bearing,
    Bore,
    Cause,
    Compound,
    FitClass,
    Instrument,
    Material,
    Part,
    Range,
    Source,
    Spread,
    Standard,
    Table,
)

__all__ = [
    "Bearing", "Bore", "Cause", "Compound", "Example", "FitClass", "HouseChange", "Instrument", "Layer", "Limit",
    "Material", "Part", "Range", "Remedy", "Rule", "Rulebook", "Source", "Spread", "Stance", "Standard", "Subject",
    "Table",
]  # fmt: skip

Layer = Literal["shipped", "house"]
Stance = Literal["stops_work", "rules_out", "asks_first", "advises_against", "supports"]
SafeSide = Literal["higher", "lower"]
ShopMay = Literal["tighten", "move", "nothing"]
SubjectKind = Literal["frame", "side", "remedies", "cause"]


@dataclass(frozen=True, slots=True)
class Limit:
    """One named number; moving it to its safe side is stricter."""

    id: str
    meaning: str
    unit: str
    value: float
    safe_side: SafeSide
    shop_may: ShopMay
    source: Source
    place: Place
    layer: Layer = "shipped"

    @property
    def shown(self) -> str:
        """Return the limit as people read it, with its unit."""
        return show(self.value, self.unit)

    def stricter(self, value: float) -> bool:
        """Return whether `value` lies on the safe side of this limit."""
        return value > self.value if self.safe_side == "higher" else value < self.value


class Subject(NamedTuple):
    """What a rule is about: the frame, a side, named remedies, or a cause."""

    kind: SubjectKind
    names: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Example:
    """One example of a rule: facts (those left out are unknown) and the outcome they must give."""

    name: str
    facts: Mapping[str, FactValue]
    expect: Outcome
    place: Place


@dataclass(frozen=True, slots=True)
class Rule:
    """Conditions on facts and the finding they lead to.

    `do` are ids of actions, `cautions` and `deferrals` ids of the wording; `limits` and `facts` are the ids its
    condition reaches.
    """

    id: str
    title: str
    about: Subject
    condition: Condition
    stance: Stance
    do: tuple[str, ...]
    if_undecided: Literal["caution"] | None
    because: str
    cautions: tuple[str, ...]
    deferrals: tuple[str, ...]
    source: Source
    place: Place
    sealed: bool
    layer: Layer
    examples: tuple[Example, ...]
    limits: tuple[str, ...]
    facts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class HouseChange:
    """One named act of the shop on the shipped rules.

    `before` and `after` are limits with their unit, or rule titles; empty where there is none. `looser` tells
    whether it could make a decision milder; such a change is void after `review_by`. `accepts` are the ids of the
    cases that somebody looked at and found rightly milder.
    """

    kind: Literal["change", "withdraw", "replace", "add"]
    id: str
    before: str
    after: str
    reason: str
    by: str
    dated: date
    review_by: date
    looser: bool
    place: Place
    accepts: tuple[str, ...] = ()


class RulesAbout(NamedTuple):
    """The rules about one kind of subject, sorted by id, with their conditions compiled."""

    rules: tuple[Rule, ...]
    board: Board


@dataclass(frozen=True)
class Rulebook:
    """Everything the tool decides with. Rules are sorted by id, remedies stand in the order they are considered.

    `words` maps each list to its words and how people read them; `wording` each section to its sentences, those of
    another language under `de/owner` and the like; `standing` are the sentences every account carries. `fingerprint`
    is that of everything effective here; `edited` tells whether the shipped files differ from those this version was
    released with. `house_changes` are the acts of the shop in force, `house_void` those whose review is overdue and
    that are not.
    """

    limits: Mapping[str, Limit]
    rules: tuple[Rule, ...]
    remedies: tuple[Remedy, ...]
    standards: Mapping[str, Standard]
    fit_classes: Mapping[str, FitClass]
    materials: Mapping[str, Material]
    instruments: Mapping[str, Instrument]
    spreads: Mapping[str, Spread]
    bearings: Mapping[str, Bearing]
    parts: Mapping[str, Part]
    words: Mapping[str, Mapping[str, str]]
    lists: Mapping[str, tuple[str, ...]]
    tables: Mapping[str, Table]
    wording: Mapping[str, Mapping[str, str]]
    standing: tuple[str, ...]
    causes: Mapping[str, Cause]
    compounds: Mapping[str, Compound] = field(default_factory=dict)
    grids: Mapping[str, AnswerGrid] = field(default_factory=dict)
    fingerprint: str = ""
    edited: bool = False
    house_changes: tuple[HouseChange, ...] = ()
    house_void: tuple[HouseChange, ...] = ()

    @cached_property
    def about(self) -> Mapping[str, RulesAbout]:
        """Return the rules about the `frame`, a `side`, a `cause`, and about each remedy by its id."""
        return {name: _compiled(rules) for name, rules in by_subject(self.rules).items()}

    def rule(self, rule_id: str) -> Rule:
        """Return a rule by id; raises KeyError when the book has none of that id."""
        for rule in self.rules:
            if rule.id == rule_id:
                return rule
        raise KeyError(rule_id)


def by_subject(rules: Iterable[Rule]) -> Mapping[str, list[Rule]]:
    """Return the rules about the `frame`, a `side`, a `cause` and each remedy by its id, sorted by id."""
    found: dict[str, list[Rule]] = {"frame": [], "side": [], "cause": []}
    for rule in sorted(rules, key=lambda each: each.id):
        for name in dict.fromkeys(rule.about.names) if rule.about.kind == "remedies" else (rule.about.kind,):
            found.setdefault(name, []).append(rule)
    return found


def _compiled(rules: list[Rule]) -> RulesAbout:
    return RulesAbout(tuple(rules), Board([rule.condition for rule in rules]))
