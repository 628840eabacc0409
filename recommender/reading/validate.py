"""Models applied to documents: every error of a model becomes a flaw at its place in the file."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from recommender.ground.flaw import MOST_FLAWS, Flaw, Flawed, flaw, too_many
from recommender.ground.place import Place
from recommender.ground.suggest import did_you_mean
from recommender.reading.complaints import Complaint, wrong_value
from recommender.reading.document import Document, Path
from recommender.reading.levels import fields_at, is_tag

M = TypeVar("M", bound=BaseModel)
OF_A_KEY = "[key]"


def validated(document: Document, model: type[M], at: Sequence[str | int] = (), known: Iterable[str] = ()) -> M:
    """Return the part of a document at a path as a model; raises Flawed with every error at its place.

    `known` are further words that a suggestion for a misspelt word may draw on.
    """
    try:
        return model.model_validate(_node(document.data, at))
    except ValidationError as error:
        raise Flawed(flaws_of(document, error, model, at, known)) from None


def flaws_of(
    document: Document,
    error: ValidationError,
    model: type[BaseModel],
    at: Sequence[str | int] = (),
    known: Iterable[str] = (),
) -> list[Flaw]:
    """Return a flaw for every error, up to MOST_FLAWS, that a model found in the part of a document at a path."""
    words, errors = tuple(known), error.errors(include_url=False)
    found = [_flaw(document, each, model, tuple(at), words) for each in errors[:MOST_FLAWS]]
    return found if len(errors) <= MOST_FLAWS else [*found, too_many(document.file)]


def _flaw(
    document: Document, error: Mapping[str, Any], model: type[BaseModel], at: Path, known: tuple[str, ...]
) -> Flaw:
    loc: Path = error["loc"]
    kind = error["type"]
    if kind == "extra_forbidden":
        path = _path_in(document.data, at, loc)
        return _made(document, "unknown-key", document.place(path, key=True), _unknown_key(model, loc, known))
    if kind == "missing":
        path = _path_in(document.data, at, loc[:-1])
        return _made(document, "missing-key", heading(document, path), _missing_key(model, loc))
    on_key = bool(loc) and loc[-1] == OF_A_KEY
    path = _path_in(document.data, at, loc[:-1] if on_key else loc)
    place = document.place(path, key=True) if on_key else _value_place(document, path)
    return _made(document, "wrong-value", place, wrong_value(error, known))


def heading(document: Document, path: Path) -> Place:
    """Return where a mapping or list is announced: its key, or else its first character."""
    place = document.place(path, key=True)
    if path in document.places and document.places[path].key is not None:
        return place
    return place._replace(end_line=place.line, end_column=place.column + 1)


def _value_place(document: Document, path: Path) -> Place:
    if isinstance(_node(document.data, path), dict | list):
        return heading(document, path)
    return document.place(path)


def _unknown_key(model: type[BaseModel], loc: Path, known: tuple[str, ...]) -> Complaint:
    return Complaint(f"unknown key `{loc[-1]}`", did_you_mean(str(loc[-1]), {*fields_at(model, loc[:-1]), *known}))


def _missing_key(model: type[BaseModel], loc: Path) -> Complaint:
    field = fields_at(model, loc[:-1]).get(str(loc[-1]))
    meaning = f" ({field.description})" if field is not None and field.description else ""
    return Complaint(f"the key `{loc[-1]}` is missing", f"Add `{loc[-1]}: ...`{meaning}.")


def _made(document: Document, check: str, place: Place, said: Complaint) -> Flaw:
    return flaw(f"file.{check}", place, document.text, said.message, said.advice)


def _path_in(data: Any, at: Path, loc: Path) -> Path:
    """Return the path in the data that a pydantic location means.

    Tags and names of union branches are no keys and are passed over.
    """
    path, node = at, _node(data, at)
    for item in loc:
        if not is_tag(item) and _has(node, item):
            path, node = (*path, item), node[item]
    return path


def _has(node: Any, item: str | int) -> bool:
    if isinstance(node, dict):
        return item in node
    return isinstance(node, list) and isinstance(item, int) and 0 <= item < len(node)


def _node(data: Any, path: Sequence[str | int]) -> Any:
    for item in path:
        data = data[item]
    return data
