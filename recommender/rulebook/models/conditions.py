"""Conditions as written in a file: a comparison of one fact, or a group of conditions."""

from typing import Annotated, Any

from pydantic import AfterValidator, BeforeValidator, Discriminator, Field, Tag, model_validator

from recommender.logic.conditions import GroupKind, Op
from recommender.reading.model import Model
from recommender.rulebook.models.common import Text

OPS: tuple[Op, ...] = ("at_least", "at_most", "above", "below", "between", "equals", "one_of", "known")
HOW = "a condition is wanted here; write `{fact: ..., at_most: ...}`, or a group of conditions"
GROUPS: tuple[GroupKind, ...] = ("every", "some", "none_of")


def number_or_limit(given: object) -> object:
    """Return the operand of a comparison of numbers; raises ValueError when it cannot be one."""
    if isinstance(given, bool) or not isinstance(given, str | int | float):
        raise ValueError("a limit id or a number with its unit is wanted here; write it like `25 um`")
    return given


def word_or_flag(given: object) -> object:
    """Return the operand of `equals`; raises ValueError when it is neither a word nor a flag."""
    if not isinstance(given, str | bool):
        raise ValueError("a word, `true` or `false` is wanted here; compare numbers with at_least, at_most or between")
    return given


def _two(given: list[Any]) -> list[Any]:
    if len(given) != 2:
        raise ValueError(f"two ends are wanted here, not {len(given)}; write it like `[10 um, 25 um]`")
    return given


NumberOrLimit = Annotated[Any, BeforeValidator(number_or_limit)]
WordOrFlag = Annotated[Any, BeforeValidator(word_or_flag)]


class LeafModel(Model):
    """One comparison of one fact."""

    fact: Text = Field(description="id of a fact")
    at_least: NumberOrLimit = None
    at_most: NumberOrLimit = None
    above: NumberOrLimit = None
    below: NumberOrLimit = None
    between: Annotated[list[NumberOrLimit], AfterValidator(_two)] | None = None
    equals: WordOrFlag = None
    one_of: Annotated[list[Text], Field(min_length=1)] | None = None
    known: bool | None = None

    @model_validator(mode="after")
    def _one_comparison(self) -> "LeafModel":
        if len(self.written) != 1:
            found = "none" if not self.written else " and ".join(f"`{op}`" for op in self.written)
            raise ValueError(f"one comparison is wanted here, found {found}; write one of {', '.join(OPS)}")
        return self

    @property
    def written(self) -> list[Op]:
        """Return the comparisons written down."""
        return [op for op in OPS if op in self.model_fields_set]


class GroupModel(Model):
    """`every`, `some` or `none_of` over conditions."""

    every: Annotated[list["ConditionModel"], Field(min_length=1)] | None = None
    some: Annotated[list["ConditionModel"], Field(min_length=1)] | None = None
    none_of: Annotated[list["ConditionModel"], Field(min_length=1)] | None = None

    @model_validator(mode="after")
    def _one_group(self) -> "GroupModel":
        if len(self.written) != 1:
            raise ValueError(f"one group is wanted here, found {len(self.written)}; put one group inside the other")
        return self

    @property
    def written(self) -> list[GroupKind]:
        """Return the groups written down."""
        return [kind for kind in GROUPS if kind in self.model_fields_set]


def _kind_of(given: Any) -> str | None:
    if isinstance(given, LeafModel | GroupModel):
        return "<leaf>" if isinstance(given, LeafModel) else "<group>"
    if not isinstance(given, dict):
        return None
    return "<leaf>" if any(key in given for key in ("fact", *OPS)) else "<group>"


ConditionModel = Annotated[
    Annotated[LeafModel, Tag("<leaf>")] | Annotated[GroupModel, Tag("<group>")],
    Discriminator(_kind_of, custom_error_type="condition", custom_error_message=HOW),
]
GroupModel.model_rebuild()
