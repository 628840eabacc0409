"""A grid as written in a file: a decision table of two to four inputs and one answer."""

from typing import Annotated, Any

from pydantic import AfterValidator, BeforeValidator, Field, model_validator

from recommender.logic.grids import FEWEST_INPUTS, MOST_INPUTS
from recommender.reading.model import Model
from recommender.rulebook.models.common import Sourced, Text, Word
from recommender.rulebook.models.conditions import NumberOrLimit
from recommender.rulebook.models.rules import example_value


class BandModel(Model):
    """A range of numbers, `from` included and `to` not; what is left out has no end."""

    start: NumberOrLimit = Field(default=None, alias="from", description="a limit, or a number with its unit")
    end: NumberOrLimit = Field(default=None, alias="to", description="a limit, or a number with its unit")

    @model_validator(mode="after")
    def _an_end(self) -> "BandModel":
        if not self.model_fields_set:
            raise ValueError("a range needs an end; write `{from: ...}`, `{to: ...}` or both, or leave the input out")
        return self


def cell(given: Any) -> Any:
    """Return one cell of a row: a range, or one or more words; raises ValueError for anything else."""
    if isinstance(given, BandModel):
        return given
    if isinstance(given, dict):
        return BandModel.model_validate(given)
    words = given if isinstance(given, list) else [given]
    if not words or not all(isinstance(each, str | bool) for each in words):
        raise ValueError("a range or words are wanted here; write `{from: LIMIT, to: LIMIT}`, or `[word, word]`")
    return words


def _few(given: list[str]) -> list[str]:
    if not FEWEST_INPUTS <= len(given) <= MOST_INPUTS:
        raise ValueError(
            f"a grid has {FEWEST_INPUTS} to {MOST_INPUTS} inputs, not {len(given)}; "
            "with one input write rules, with more make two grids of it"
        )
    return given


class GridRow(Model):
    """One row: where each input lies, and the answer; an input left out may lie anywhere."""

    at: dict[str, Annotated[Any, BeforeValidator(cell)]] = Field(description="range or words by input")
    gives: Word = Field(description="the answer")


class GridExample(Model):
    """Facts and the answer they must give; a fact left out is unknown."""

    name: Text
    facts: dict[str, Annotated[Any, BeforeValidator(example_value)]]
    expect: Word = Field(description="the answer, or `undecided`")


class GridModel(Model):
    """A decision table; every combination of its inputs lies in exactly one row."""

    title: Text
    answers: Text = Field(description="id of the fact it answers")
    inputs: Annotated[list[Text], AfterValidator(_few)] = Field(description="ids of two to four facts")
    rows: Annotated[list[GridRow], Field(min_length=1)]
    source: Sourced
    examples: Annotated[list[GridExample], Field(min_length=1)] = Field(description="at least one for each row")


def limits_named(grid: GridModel) -> list[str]:
    """Return what the ranges of a grid name as their ends, limits and numbers alike."""
    bands = (each for row in grid.rows for each in row.at.values() if isinstance(each, BandModel))
    return [str(end) for band in bands for end in (band.start, band.end) if end is not None]
