"""Words, sentences, remedies, causes and tables as written in files."""

from collections import Counter
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, ConfigDict, Field

from recommender.reading.model import Model
from recommender.reading.types import Length
from recommender.rulebook.models.common import Id, Sourced, Text, UnitName, Word


def words_with_texts(given: Any) -> Any:
    """Return a list of words as a mapping from word to how people read it."""
    if not isinstance(given, list):
        return given
    if not all(isinstance(each, str) for each in given):
        raise ValueError("a list of words is wanted here; write each by itself, a number in quotes")
    twice = sorted(each for each, count in Counter(given).items() if count > 1)
    if twice:
        raise ValueError(f"`{twice[0]}` stands here twice; take one out")
    return {each: each.replace("_", " ") for each in given}


WordList = Annotated[dict[Word, Text], BeforeValidator(words_with_texts)]


class NoticesModel(Model):
    """Sentences printed with a verdict, those every account carries, and any further ones by id."""

    model_config = ConfigDict(extra="allow")

    damage: Text
    size_or_form: Text
    measure_again: Text
    held: Text
    not_released: Text
    proceed: Text
    standing: Annotated[list[Text], Field(min_length=1)]
    __pydantic_extra__: dict[str, Text]


class TranslatedModel(Model):
    """The owner's page in another language, by the ids of the sentences it stands for."""

    owner: dict[Id, Text]
    notices: dict[Id, Text]
    deferrals: dict[Id, Text]


class WordingModel(Model):
    """Sentences of the account."""

    cautions: dict[Id, Text] = Field(default={}, description="printed beside a verdict")
    deferrals: dict[Id, Text] = Field(default={}, description="what is left to others")
    notices: NoticesModel | None = None
    actions: dict[Id, Text] = Field(default={}, description="what to do first")
    owner: dict[Id, Text] = Field(default={}, description="what the owner reads, in plain words")
    translated: dict[Word, TranslatedModel] = Field(default={}, description="the owner's page in other languages")


class RemedyModel(Model):
    """What can be done to a side."""

    title: Text
    reversible: bool
    makes: Literal["fits_part", "turned_part", "cut"]
    consent: bool
    explains: str = ""


class CauseModel(Model):
    """One way a bore may have come to be what it is."""

    title: Text


def _cell(given: Any) -> Any:
    numbers = given if isinstance(given, list) else [given]
    good = all(isinstance(each, int | float) and not isinstance(each, bool) for each in numbers)
    if not good or (isinstance(given, list) and len(given) != 2):
        raise ValueError("a number, or two of them as `[upper, lower]`, is wanted here; write them without unit")
    return tuple(map(float, given)) if isinstance(given, list) else float(given)


class RangeModel(Model):
    """One range of sizes; the columns are named freely."""

    model_config = ConfigDict(extra="allow")

    over: Length
    to: Length
    __pydantic_extra__: dict[str, Annotated[Any, BeforeValidator(_cell)]]


class TableModel(Model):
    """A table of a standard, by range of size."""

    title: Text
    unit: UnitName
    ranges: Annotated[list[RangeModel], Field(min_length=1)]
    source: Sourced
