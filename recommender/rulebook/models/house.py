"""A house file: named acts on the shipped rules, and additions whose ids start with `house.`."""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Discriminator, Field, Tag, model_validator

from recommender.ground.quantity import Quantity, parse
from recommender.reading.model import Model
from recommender.reading.types import IsoDate
from recommender.rulebook.models.common import Id, Text
from recommender.rulebook.models.grids import GridModel
from recommender.rulebook.models.limits import LimitModel
from recommender.rulebook.models.rules import RuleModel
from recommender.rulebook.models.stock import PartModel


def quantity(given: object) -> Quantity:
    """Return a number with its unit, a bare one as a plain number; raises ValueError for anything else."""
    if isinstance(given, Quantity):
        return given
    if isinstance(given, bool) or not isinstance(given, str | int | float):
        raise ValueError("a number with its unit is wanted here; write it like `15 um`")
    return parse(str(given))


UnitQuantity = Annotated[Quantity, BeforeValidator(quantity)]


class Signed(Model):
    """Who made a change, when and why, and until when it stands without being looked at again."""

    reason: Text = Field(description="why, for whoever reads it next year")
    by: Text = Field(description="who answers for it")
    dated: IsoDate = Field(description="the day it was made, such as 2026-11-20")
    review_by: IsoDate = Field(description="the last day on which it stands without being looked at again")
    accepts: list[Text] = Field(default=[], description="ids of the cases this change may make milder")


class Change(Signed):
    """A limit moved to another value."""

    change: Id = Field(description="id of a shipped limit")
    to: UnitQuantity = Field(description="the new value with its unit")
    was: UnitQuantity = Field(description="the shipped value with its unit")


class Withdraw(Signed):
    """A shipped rule taken out."""

    withdraw: Id = Field(description="id of a shipped rule")


class Replace(Signed):
    """A shipped rule or grid replaced as a whole; nothing of it is inherited."""

    replace: Id = Field(description="id of a shipped rule or grid")
    rule: RuleModel | None = Field(default=None, description="the full rule, with the same id and the same subject")
    grid: GridModel | None = Field(default=None, description="the full grid, with the same answer")

    @model_validator(mode="after")
    def _one(self) -> "Replace":
        if (self.rule is None) == (self.grid is None):
            raise ValueError("one full text is wanted here; write `rule: ...` or `grid: ...` below `replace`")
        return self


KINDS: tuple[Literal["change", "withdraw", "replace"], ...] = ("change", "withdraw", "replace")


def _kind_of(given: Any) -> str | None:
    if isinstance(given, Signed):
        return f"<{type(given).__name__.lower()}>"
    named = [kind for kind in KINDS if isinstance(given, dict) and kind in given]
    return f"<{named[0]}>" if named else None


HOW = "an act on the shipped rules is wanted here; start it with `change:`, `withdraw:` or `replace:`"
Act = Annotated[
    Annotated[Change, Tag("<change>")] | Annotated[Withdraw, Tag("<withdraw>")] | Annotated[Replace, Tag("<replace>")],
    Discriminator(_kind_of, custom_error_type="act", custom_error_message=HOW),
]


class AddedRule(RuleModel):
    """A rule of the house."""

    added: Signed = Field(description="who added it, when and why")


class AddedLimit(LimitModel):
    """A limit of the house."""

    added: Signed = Field(description="who added it, when and why")


class AddedGrid(GridModel):
    """A grid of the house."""

    added: Signed = Field(description="who added it, when and why")


class AddedPart(PartModel):
    """A part of the house."""

    added: Signed = Field(description="who added it, when and why")


class HouseFile(Model):
    """One file of a house folder."""

    house: list[Act] = Field(default=[], description="acts on shipped limits, rules and grids")
    rules: list[AddedRule] = Field(default=[], description="further rules; their ids start with `house.`")
    grids: dict[Id, AddedGrid] = Field(default={}, description="further grids; their ids start with `house.`")
    limits: dict[Id, AddedLimit] = Field(default={}, description="further limits; their ids start with `house.`")
    parts: dict[Id, AddedPart] = Field(default={}, description="further parts; their ids start with `house.`")
