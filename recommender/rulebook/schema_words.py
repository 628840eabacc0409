"""The ids and words of a book put into the JSON Schemas, where an editor can complete them."""

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from recommender.facts.catalogue import CATALOGUE
from recommender.facts.fact import Fact
from recommender.logic.grids import FEWEST_INPUTS, MOST_INPUTS
from recommender.rulebook.book import Rulebook

Node = dict[str, Any]
HOUSE: Node = {"type": "string", "pattern": r"^house\.", "description": "an addition of the house"}
NUMBER_WITH_UNIT: Node = {
    "type": ["number", "string"], "pattern": r"^\s*[+-]?[0-9.]", "description": "a number with its unit",
}  # fmt: skip
NUMBER_KEYS = ("at_least", "at_most", "above", "below")


def filled(schema: Node, book: Rulebook, catalogue: Mapping[str, Fact]) -> Node:
    """Return the schema with the ids of facts, limits, remedies, causes, wording and words as enumerations."""
    models = schema.get("$defs", {})
    facts = choice({each.id: each.meaning for each in catalogue.values()})
    for name, fill in (("LeafModel", _leaf), ("About", _about), ("ExampleModel", _example),
        ("GridExample", _example), ("GridModel", _grid), ("AddedGrid", _grid), ("GridRow", _row),
    ):  # fmt: skip
        if name in models:
            fill(models[name]["properties"], book, facts)
    for name in ("RuleModel", "AddedRule"):
        if name in models:
            _rule(models[name]["properties"], book)
    for name in ("PartModel", "AddedPart"):
        if name in models:
            _part(models[name]["properties"], book)
    _acts(models, book)
    _case({**models, "Case": schema}, book)
    return schema


def choice(known: Mapping[str, str], *others: Node) -> Node:
    """Return one of some ids, each with what it means, or one of the other forms."""
    listed: Node = {"enum": list(known), "enumDescriptions": list(known.values())}
    return {"anyOf": [listed, *others]} if others else listed


def words(known: Iterable[str], *others: str) -> Node:
    """Return one of some words."""
    return {"enum": list(dict.fromkeys([*known, *others]))}


def limits(book: Rulebook) -> Mapping[str, str]:
    """Return every limit with its meaning and value."""
    return {each.id: f"{each.meaning}: {each.shown}" for each in book.limits.values()}


def _leaf(properties: Node, book: Rulebook, facts: Node) -> None:
    named = choice(limits(book), HOUSE, NUMBER_WITH_UNIT)
    properties["fact"] = {**facts, "description": "id of a fact"}
    for key in NUMBER_KEYS:
        properties[key] = named
    properties["between"] = {"type": "array", "items": named, "minItems": 2, "maxItems": 2}


def _about(properties: Node, book: Rulebook, facts: Node) -> None:
    del facts
    properties.pop("kind", None)
    remedies = choice({each.id: each.title for each in book.remedies})
    properties["remedies"] = {"type": "array", "items": remedies, "minItems": 1}
    properties["cause"] = choice({each.id: each.title for each in book.causes.values()})


def _example(properties: Node, book: Rulebook, facts: Node) -> None:
    del book
    properties["facts"] = {"type": "object", "propertyNames": {"enum": facts["enum"]}}


def _rule(properties: Node, book: Rulebook) -> None:
    properties["about"] = {"anyOf": [words(("frame", "side")), {"$ref": "#/$defs/About"}],
                           "description": "frame, side, remedies or a cause"}  # fmt: skip
    for key, kind in (("caution", "cautions"), ("defer_to", "deferrals"), ("action", "actions")):
        one = choice(book.wording.get(kind, {}))
        properties[key] = {"anyOf": [one, {"type": "array", "items": one}], "description": f"ids of wording.{kind}"}


def _part(properties: Node, book: Rulebook) -> None:
    properties["bearing"] = choice({each.id: each.title for each in book.bearings.values()})
    properties["material"] = words(book.materials)
    properties["standards"] = {"type": "array", "items": choice(_titles(book.standards))}


def _grid(properties: Node, book: Rulebook, facts: Node) -> None:
    del book
    meanings = dict(zip(facts["enum"], facts["enumDescriptions"], strict=True))
    answered = {name: meanings[name] for name, fact in CATALOGUE.items() if fact.by_grid}
    properties["answers"] = {**choice(answered), "description": "id of the fact it answers"}
    properties["inputs"] = {
        "type": "array", "items": facts, "minItems": FEWEST_INPUTS, "maxItems": MOST_INPUTS,
        "description": "ids of two to four facts",
    }  # fmt: skip


def _row(properties: Node, book: Rulebook, facts: Node) -> None:
    end = choice(limits(book), HOUSE, NUMBER_WITH_UNIT)
    band: Node = {
        "type": "object", "properties": {"from": end, "to": end}, "additionalProperties": False, "minProperties": 1,
        "description": "a range, `from` included and `to` not",
    }  # fmt: skip
    word: Node = {"type": ["string", "boolean"]}
    cells = {"anyOf": [band, word, {"type": "array", "items": word, "minItems": 1}]}
    properties["at"] = {
        "type": "object", "propertyNames": {"enum": facts["enum"]}, "additionalProperties": cells,
        "description": "range or words by input",
    }  # fmt: skip


def _acts(models: Node, book: Rulebook) -> None:
    open_rules = {each.id: each.title for each in book.rules if not each.sealed}
    replaceable = open_rules | {each.id: each.title for each in book.grids.values()}
    changeable = {name: meaning for name, meaning in limits(book).items() if book.limits[name].shop_may != "nothing"}
    for model, key, known in (
        ("Change", "change", changeable), ("Withdraw", "withdraw", open_rules), ("Replace", "replace", replaceable),
    ):  # fmt: skip
        if model in models:
            models[model]["properties"][key] = choice(known)


def _case(models: Node, book: Rulebook) -> None:
    """Fill in the words of a case where they stand as single values or as lists of them."""
    listed = {name: tuple(known) for name, known in book.words.items()}
    described = {"standards": tuple(book.standards), "instruments": tuple(book.instruments)}
    for model, key, source in WORDS_OF_A_CASE:
        if model in models and key in models[model]["properties"]:
            known = words((listed | described).get(source, ()), "unknown")
            _put(models[model]["properties"], key, known)
    if "Part" in models:
        models["Part"]["properties"]["part"] = choice(_titles(book.parts), HOUSE)
    if "Expect" in models:
        models["Expect"]["properties"]["rules"]["propertyNames"] = {
            "anyOf": [words(rule.id for rule in book.rules), HOUSE]
        }


WORDS_OF_A_CASE = (
    ("Frame", "material", "materials"), ("Frame", "standard", "standards"), ("Frame", "insert", "inserts"),
    ("Frame", "insert_material", "materials"), ("Opening", "kind", "opening_kinds"),
    ("Instrument", "kind", "instruments"), ("Alignment", "method", "alignment_methods"),
    ("History", "symptoms", "symptoms"), ("History", "ruled_out_elsewhere", "elsewhere"),
    ("History", "crash", "crash"), ("History", "warranty", "warranty"), ("FittedCup", "material", "part_materials"),
    ("Sign", "sign", "signs"), ("Sign", "where", "places"), ("BoreState", "cleaned", "cleaned"),
    ("BoreState", "coating", "coatings"), ("BoreState", "cut_before", "cut_before"), ("Press", "feel", "press_feel"),
)  # fmt: skip


def _put(properties: Node, key: str, known: Node) -> None:
    """Put the words in place of the text of a value, or of the items of a list."""
    old = properties[key]
    told = {"description": old["description"]} if "description" in old else {}
    properties[key] = {**known, **told} if old.get("type") == "string" else {**old, "items": known}


def _titles(entries: Mapping[str, Any]) -> Mapping[str, str]:
    title: Callable[[Any], str] = lambda entry: str(entry.title)  # noqa: E731
    return {name: title(entry) for name, entry in entries.items()}
