"""JSON Schemas of rule, house and case files, from their models and the ids of a book; editors complete by them."""

import json
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaMode, JsonSchemaValue

from recommender.bench.case import Case
from recommender.facts.catalogue import CATALOGUE
from recommender.ground.quantity import UNITS
from recommender.reading.model import Model
from recommender.rulebook.book import Rulebook
from recommender.rulebook.models.file import RuleFile
from recommender.rulebook.models.house import HouseFile
from recommender.rulebook.schema_words import filled

DRAFT = "http://json-schema.org/draft-07/schema#"
NUMBER = r"[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][+-]?[0-9]+)?"
QUANTITY = rf"^\s*{NUMBER}\s*({'|'.join(UNITS)})\s*$"
TEXT: JsonSchemaValue = {"type": "string"}
WITH_UNIT: JsonSchemaValue = {"type": "string", "pattern": QUANTITY, "description": "a number with its unit"}
PLAIN = {"type": ["number", "string"]}
# How the readers of single values look to an editor, by the name of the reader.
READERS: Mapping[str, JsonSchemaValue] = {
    "quantity_in.<locals>.read": WITH_UNIT,
    "any_quantity": WITH_UNIT,
    "quantity": {"anyOf": [WITH_UNIT, {"type": "number"}]},
    "plain_number": PLAIN,
    "iso_date": {"type": "string", "pattern": r"^\d{4}-\d{2}-\d{2}$", "description": "year-month-day"},
    "number_or_limit": PLAIN,
    "word_or_flag": {"type": ["string", "boolean"]},
}
FILES: Mapping[str, tuple[type[Model], str]] = {
    "rules": (RuleFile, "A file of the rule book"),
    "house": (HouseFile, "A house file: acts on the shipped rules, and additions"),
    "case": (Case, "A case: one frame on the bench"),
}


class _Generator(GenerateJsonSchema):
    """Tells what the readers take, not what they make of it."""

    schema_dialect = DRAFT

    def function_before_schema(self, schema: Any) -> JsonSchemaValue:
        """Return what a reader takes before the model sees it: what is known of it, else a text or the model's own."""
        name = getattr(schema["function"]["function"], "__qualname__", "")
        if name in READERS:
            return dict(READERS[name])
        inner = self.generate_inner(schema["schema"])
        return inner if not inner else {"anyOf": [{"type": ["string", "number", "array"]}, inner]}

    def function_wrap_schema(self, schema: Any) -> JsonSchemaValue:
        """Return what a reader around a model takes: a text, or the model."""
        return {"anyOf": [WITH_UNIT, TEXT, self.generate_inner(schema["schema"])]}

    def tagged_union_schema(self, schema: Any) -> JsonSchemaValue:
        """Return any of the branches; two of them may look alike to an editor."""
        made = super().tagged_union_schema(schema)
        return {"anyOf": made["oneOf"]} if "oneOf" in made else made


def schemas(book: Rulebook) -> dict[str, str]:
    """Return the text of every schema by its file name, the ids of the book as enumerations."""
    return {f"{name}.schema.json": _text(model, title, book) for name, (model, title) in FILES.items()}


def _text(model: type[Model], title: str, book: Rulebook) -> str:
    mode: JsonSchemaMode = "validation"
    made = model.model_json_schema(schema_generator=_Generator, mode=mode)
    return json.dumps({**filled(_tidy(made), book, CATALOGUE), "$schema": DRAFT, "title": title}, indent=1) + "\n"


def _tidy(node: Any) -> Any:
    """Return a schema without generated titles and without the defaults that say a key may be left out."""
    if isinstance(node, list):
        return [_tidy(each) for each in node]
    if not isinstance(node, dict):
        return node
    left = {key: value for key, value in node.items() if not _noise(key, value)}
    if isinstance(left.get("properties"), dict):
        left["properties"] = {name: _tidy(each) for name, each in node["properties"].items()}
    return {key: value if key == "properties" else _tidy(value) for key, value in left.items()}


def _noise(key: str, value: object) -> bool:
    return (key == "title" and isinstance(value, str)) or (key == "default" and value in (None, [], {}, ""))


def stale(book: Rulebook, read: Callable[[str], str | None]) -> Iterable[str]:
    """Yield the name of every schema file whose text, as `read` gives it, is not the one of this book."""
    return (name for name, text in schemas(book).items() if read(name) != text)
