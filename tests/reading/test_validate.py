"""Errors of models become flaws at their place."""

from typing import Annotated, Any, Literal

import pytest
from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    Discriminator,
    Field,
    FiniteFloat,
    Strict,
    Tag,
    ValidationError,
    model_validator,
)

from recommender.ground.flaw import MOST_FLAWS, Flaw, Flawed
from recommender.reading.model import Model
from recommender.reading.types import IsoDate, Length
from recommender.reading.validate import flaws_of, validated
from recommender.reading.yaml_reader import read_text


def _short(key: str) -> str:
    if len(key) > 3:
        raise ValueError(f"`{key}` is too long a name; use three letters")
    return key


def _branch(given: Any) -> str | None:
    if not isinstance(given, dict):
        return None
    return "<every>" if "every" in given else "<fact>" if "fact" in given else None


class Leaf(Model):
    fact: str
    at_most: Length | None = None


class Every(Model):
    every: "list[Condition]"


Condition = Annotated[
    Annotated[Every, Tag("<every>")] | Annotated[Leaf, Tag("<fact>")],
    Discriminator(_branch, custom_error_type="condition", custom_error_message="a condition needs `every` or `fact`"),
]


class Part(Model):
    od: Length
    seats: Annotated[tuple[FiniteFloat, ...], Strict(False), Field(min_length=1)] = (1.0,)

    @model_validator(mode="after")
    def _large(self) -> "Part":
        if self.od < 10:
            raise ValueError("`od` is smaller than any part")
        return self


class Whole(Model):
    wall: Length = Field(3.0, description="thinnest wall")
    kind: Literal["go", "no_go"] = "go"
    count: Annotated[int, Field(ge=1)] = 1
    ratio: FiniteFloat = 1.0
    checked: bool = True
    dated: IsoDate | None = None
    names: dict[Annotated[str, AfterValidator(_short)], str] = Field(default_factory=dict)
    part: Part | None = None
    parts: Annotated[tuple[Part, ...], Strict(False)] = ()
    one_or_many: Annotated[
        tuple[float, ...], Strict(False), BeforeValidator(lambda v: v if isinstance(v, list) else [v])
    ] = ()
    require: Condition | None = None


class Outer(Model):
    wanted: str = Field(description="what is wanted")
    serial: str


Every.model_rebuild()
Whole.model_rebuild()


def flaws(text: str, model: type[BaseModel] = Whole, **more: Any) -> tuple[Flaw, ...]:
    with pytest.raises(Flawed) as refused:
        validated(read_text(text, "f"), model, **more)
    return refused.value.flaws


def test_a_valid_document_becomes_its_model() -> None:
    text = "wall: 3.1 mm\nparts: [{od: 46.0 mm, seats: [1, 2.5]}]\nrequire: {every: [{fact: x}]}\ndated: 2026-05-04\n"
    whole = validated(read_text(text, "f"), Whole)
    assert whole.wall == 3.1
    assert whole.parts[0].seats == (1.0, 2.5)


@pytest.mark.parametrize(
    ("text", "at", "check", "message", "advice"),
    [
        ("waal: 3 mm\n", "1:1-5", "unknown-key", "unknown key `waal`", "Did you mean `wall`?"),
        ("part: {od: 46 mm, seat: [1]}\n", "1:19-23", "unknown-key", "unknown key `seat`", "Did you mean `seats`?"),
        ("part: {seats: [1]}\n", "1:1-5", "missing-key", "the key `od` is missing", "Add `od: ...`."),
        ("parts:\n  - {seats: [1]}\n", "2:5-6", "missing-key", "the key `od` is missing", "Add `od: ...`."),
        ("wall: 30 degC\n", "1:7-14", "wrong-value", "`30 degC` is a temperature", "A length such as `46.032 mm` is wanted."),
        ("wall: 68.1\n", "1:7-11", "wrong-value", "a unit is missing", "Write `68.1 mm` if that is what was measured."),
        ("kind: nogo\n", "1:7-11", "wrong-value", "the text `nogo` is not one of the words possible here", "Did you mean `no_go`?"),
        ("kind: 3\n", "1:7-8", "wrong-value", "`3` is not one of the words possible here", "Known here: go, no_go."),
        ("count: true\n", "1:8-12", "wrong-value", "a whole number is wanted here, not `true`", "Write a whole number, without quotes and without a unit."),
        ("ratio: false\n", "1:8-13", "wrong-value", "a number is wanted here, not `false`", "Write a number, without quotes and without a unit."),
        ("ratio: '3'\n", "1:8-11", "wrong-value", "a number is wanted here, not the text `3`", "Write a number, without quotes and without a unit."),
        ("count: 0\n", "1:8-9", "wrong-value", "this should be greater than or equal to 1", "Correct it here."),
        ("checked: 1\n", "1:10-11", "wrong-value", "`true` or `false` is wanted here, not `1`", "Write `true` or `false`."),
        ("dated: 2026-02-30\n", "1:8-18", "wrong-value", "`2026-02-30` is not in the calendar", "Write year-month-day such as `2026-05-04`."),
        ("names: {long_name: x}\n", "1:9-18", "wrong-value", "`long_name` is too long a name", "Use three letters."),
        ("names: {a: 3}\n", "1:12-13", "wrong-value", "a text is wanted here, not `3`", "Write a text; a number or `true` that is meant as text goes in quotes."),
        ("names: [x]\n", "1:1-6", "wrong-value", "a mapping of keys and values is wanted here, not a list", "Write `key: value` pairs here."),
        ("part: {od: 4 mm}\n", "1:1-5", "wrong-value", "`od` is smaller than any part", "Correct it here."),
        ("parts:\n  - od: 4 mm\n", "2:5-6", "wrong-value", "`od` is smaller than any part", "Correct it here."),
        ("parts: {od: 46 mm}\n", "1:1-6", "wrong-value", "a list is wanted here, not a mapping", "Write it in square brackets, also when it has only one entry."),
        ("part: {od: 46 mm, seats: []}\n", "1:19-24", "wrong-value", "at least 1 entries are needed here", "This has 0; write at least 1."),
        ("one_or_many: x\n", "1:14-15", "wrong-value", "a number is wanted here, not the text `x`", "Write a number, without quotes and without a unit."),
        ("require: {foo: 3}\n", "1:1-8", "wrong-value", "a condition needs `every` or `fact`", "Correct it here."),
        ("require:\n  every:\n    - {fact: x}\n    - every: [{fact: b, at_mots: 3 mm}]\n", "4:25-32", "unknown-key", "unknown key `at_mots`", "Did you mean `at_most`?"),
        ("require: {every: [{fact: x, at_most: 3}]}\n", "1:38-39", "wrong-value", "a unit is missing", "Write `3 mm` if that is what was measured."),
    ],
)  # fmt: skip
def test_every_error_at_its_place(text: str, at: str, check: str, message: str, advice: str) -> None:
    (found,) = flaws(text)
    place = found.place
    assert f"{place.line}:{place.column}-{place.end_column}" == at
    assert (found.check, found.message, found.advice) == (f"file.{check}", message, advice)
    assert found.shown


def test_all_errors_at_once_and_in_order() -> None:
    found = flaws("kind: nogo\nwaal: 3 mm\ncount: 1.5\n")
    assert [each.place.line for each in found] == [1, 2, 3]


def test_a_missing_key_at_the_top_names_its_meaning() -> None:
    missing, unknown = flaws("wantd: x\nserial: b\n", Outer)
    assert (str(missing.place), missing.advice) == ("f:1:1", "Add `wanted: ...` (what is wanted).")
    assert unknown.advice == "Did you mean `wanted`?"


def test_a_part_of_a_document() -> None:
    text = "house:\n  - {wanted: x, serial: b, extra: 3}\n"
    (found,) = flaws(text, Outer, at=("house", 0))
    assert str(found.place) == "f:2:28"
    (found,) = flaws("house: text\n", Outer, at=("house",))
    assert str(found.place) == "f:1:8"


def test_further_words_join_the_suggestions() -> None:
    (found,) = flaws("bore_ovalty: 3\n", known=("bore_ovality",))
    assert found.advice == "Did you mean `bore_ovality`?"


def test_errors_collected_by_the_caller() -> None:
    document = read_text("wanted: x\nserial: 5\n", "f")
    with pytest.raises(ValidationError) as refused:
        Outer.model_validate(document.data)
    (found,) = flaws_of(document, refused.value, Outer)
    assert str(found.place) == "f:2:9"


def test_long_texts_are_cut_in_messages() -> None:
    (found,) = flaws(f"kind: {'x' * 100}\n")
    assert len(found.message) < 100


def test_no_more_than_a_hundred_flaws_are_listed() -> None:
    found = flaws("".join(f"key{number}: 1\n" for number in range(300)))
    assert len(found) == MOST_FLAWS + 1
