"""Which keys a model knows at some level of the data it validates."""

from collections.abc import Iterable, Sequence
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import BaseModel, Tag
from pydantic.fields import FieldInfo

TAG_OPEN, TAG_CLOSE = "<", ">"


def is_tag(item: str | int) -> bool:
    """Return whether a step of a pydantic location is the tag of a union, spelled `<word>`, and no key."""
    return isinstance(item, str) and item.startswith(TAG_OPEN) and item.endswith(TAG_CLOSE)


def fields_at(model: type[BaseModel], loc: Sequence[str | int]) -> dict[str, FieldInfo]:
    """Return the fields a model knows at a location, by the key they are written with; not those never written."""
    level: list[Any] = [model]
    for item in loc:
        level = _tagged(level, item) if is_tag(item) else _below(level, item)
    return {
        field.alias or name: field
        for each in _branches(level)
        if _is_model(each)
        for name, field in each.model_fields.items()
        if not field.exclude
    }


def _below(level: Iterable[Any], item: str | int) -> list[Any]:
    return [deeper for each in _branches(level) for deeper in _step(each, item)]


def _step(kind: Any, item: str | int) -> list[Any]:
    if _is_model(kind):
        known = {field.alias or name: field for name, field in kind.model_fields.items()}
        return [known[item].annotation] if item in known else []
    arguments = list(get_args(kind))
    if get_origin(kind) is dict:
        return arguments[1:]
    if get_origin(kind) in (list, tuple, set, frozenset):
        return [each for each in arguments if each is not ...]
    # A step that is no key and no index is the name of a branch of a union: stay on this level.
    return [kind]


def _branches(level: Iterable[Any]) -> list[Any]:
    """Return the plain types of a level, with Annotated, unions and type aliases taken apart."""
    return [found for each in level for found in _branches_of(each)]


def _branches_of(kind: Any) -> list[Any]:
    aliased = getattr(kind, "__value__", None)
    if aliased is not None:
        return _branches_of(aliased)
    arguments = get_args(kind)
    if get_origin(kind) is Annotated:
        return _branches_of(arguments[0])
    if get_origin(kind) is Union or type(kind).__name__ == "UnionType":
        return _branches(arguments)
    return [kind]


def _tagged(level: Iterable[Any], tag: str | int) -> list[Any]:
    return [found for each in level for found in _with_tag(each, tag)]


def _with_tag(kind: Any, tag: str | int) -> list[Any]:
    if get_origin(kind) is Annotated:
        inner, *notes = get_args(kind)
        if any(isinstance(note, Tag) and note.tag == tag for note in notes):
            return [inner]
        return _with_tag(inner, tag)
    if get_origin(kind) is Union or type(kind).__name__ == "UnionType":
        return _tagged(get_args(kind), tag)
    aliased = getattr(kind, "__value__", None)
    return _with_tag(aliased, tag) if aliased is not None else []


def _is_model(kind: Any) -> bool:
    return isinstance(kind, type) and issubclass(kind, BaseModel)
