"""A rule as written in a file."""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, model_validator

from recommender.logic.outcome import Outcome
from recommender.reading.model import Model
from recommender.rulebook.models.common import Id, OneOrMore, Sourced, Text, Word
from recommender.rulebook.models.conditions import ConditionModel


class Finding(Model):
    """What the rule says about its subject when it holds."""

    stance: Literal["stops_work", "rules_out", "asks_first", "advises_against", "supports"]
    if_undecided: Literal["caution"] | None = Field(
        default=None, description="`caution`: an undecided bar that nothing at the bench could settle does not bar"
    )


class About(Model):
    """What a rule is about."""

    kind: Literal["frame", "side"] | None = Field(default=None, exclude=True)  # written as the bare word, not as a key
    remedies: Annotated[list[Word], Field(min_length=1)] | None = None
    cause: Word | None = None

    @model_validator(mode="after")
    def _one(self) -> "About":
        if len(self.model_fields_set) != 1:
            raise ValueError("one subject is wanted here; write frame, side, `{remedies: [...]}` or `{cause: ...}`")
        return self


def subject(given: Any) -> Any:
    """Return the subject in one shape; raises ValueError when it is none."""
    if isinstance(given, About):
        return given
    if given in ("frame", "side"):
        return {"kind": given}
    if isinstance(given, dict) and "kind" not in given:
        return given
    raise ValueError("the subject is not one known here; write frame, side, `{remedies: [...]}` or `{cause: ...}`")


class SpreadNumber(Model):
    """A number with its interval, in an example."""

    value: Any
    low: Any
    high: Any


def example_value(given: Any) -> Any:
    """Return the value of a fact in an example; raises ValueError for a list or nothing."""
    if isinstance(given, dict):
        return SpreadNumber.model_validate(given)
    if given is None or isinstance(given, list):
        raise ValueError("a number with unit, a word, `true` or `false` is wanted here; leave an unknown fact out")
    return given


class ExampleModel(Model):
    """Facts and the outcome they must give; a fact left out is unknown."""

    name: Text
    facts: dict[str, Annotated[Any, BeforeValidator(example_value)]]
    expect: Outcome


class RuleModel(Model):
    """Conditions on facts that lead to one finding."""

    id: Id
    title: Text
    about: Annotated[About, BeforeValidator(subject)] = Field(description="frame, side, remedies or a cause")
    holds_if: ConditionModel
    finding: Finding
    because: Text = Field(description="why, with `{fact}` and `{limit}` filled in")
    caution: OneOrMore = Field(default=[], description="ids of wording.cautions")
    defer_to: OneOrMore = Field(default=[], description="ids of wording.deferrals")
    action: OneOrMore = Field(default=[], description="ids of wording.actions: what to do first")
    source: Sourced
    sealed: Literal[True] | None = Field(default=None, description="label for readers; the list that counts is in code")
    examples: list[ExampleModel] = Field(description="at least one that holds and one that fails")
