"""What is stored of an advice: the case as it was read, the rules it was judged by, and the whole answer."""

import hashlib
import json
from collections.abc import Mapping
from typing import Any, Literal, NamedTuple

from recommender.bench.load import LoadedCase
from recommender.deciding.answer import Advice, as_data
from recommender.reading.model import Model
from recommender.records.compact import with_nodes, with_tables
from recommender.records.entries import entries_of, limits_of
from recommender.rulebook.book import Rulebook

FORMAT: Literal["borewright/record/2"] = "borewright/record/2"
LETTERS_OF_HASH = 12


class BookKept(Model):
    """The rule book of an advice: its fingerprint, a short hash of each entry by section and id, and every limit."""

    fingerprint: str
    edited: bool
    entries: dict[str, dict[str, str]]
    limits: dict[str, str]


class Content(Model):
    """What is kept in a record; `advice` is plain data as `as_data` makes it."""

    format: Literal["borewright/record/2"]
    case_text: str
    book: BookKept
    advice: dict[str, Any]

    @property
    def case(self) -> str:
        """Return the id of the case."""
        return str(self.advice["case"]["id"])


class Record(NamedTuple):
    """A stored advice; its id is made of the case's id and a hash of the content."""

    id: str
    content: Content


def record_of(loaded: LoadedCase, advice: Advice, book: Rulebook) -> Record:
    """Return the record of an advice.

    Places in the case are shown as `<case id>.yaml:line:column`, so that the same case and book make the same
    record wherever the file lay.
    """
    data = as_data(advice)
    data["trace"] = _placed(data["trace"], f"{loaded.document.file}:", f"{file_shown(advice.case.id)}:")
    kept = BookKept(
        fingerprint=book.fingerprint, edited=book.edited, entries=entries_of(book), limits=limits_of(book)
    )
    content = Content(format=FORMAT, case_text=loaded.document.text, book=kept, advice=data)
    return Record(id_of(content.case, stored(content).encode("utf-8")), content)


def file_shown(case: str) -> str:
    """Return the name by which the case text inside a record is shown."""
    return f"{case}.yaml"


def stored(content: Content) -> str:
    """Return the text of a record's file: one line of JSON with sorted keys, the trace in its compact form.

    The same content makes the same bytes.
    """
    return canonical(with_tables(content.model_dump()))


def content_from(data: Mapping[str, Any]) -> Content:
    """Return the content of a record's file in the present format; `stored` of it is that file again.

    Raises ValueError, LookupError, TypeError or AttributeError when the data have not the form of a record.
    """
    return Content.model_validate(with_nodes(data))


def canonical(data: Any) -> str:
    """Return plain data as one line of JSON with sorted keys."""
    return json.dumps(data, sort_keys=True, ensure_ascii=False, allow_nan=False, separators=(",", ":")) + "\n"


def id_of(case: str, content: bytes) -> str:
    """Return the id of a record with this content."""
    return f"{case}-{hashlib.sha256(content).hexdigest()[:LETTERS_OF_HASH]}"


def _placed(trace: dict[str, dict[str, Any]], before: str, after: str) -> dict[str, dict[str, Any]]:
    return {key: _node(node, before, after) for key, node in trace.items()}


def _node(node: dict[str, Any], before: str, after: str) -> dict[str, Any]:
    place = str(node.get("place", ""))
    return {**node, "place": after + place.removeprefix(before)} if place.startswith(before) else node
