"""What was decided and on which facts, read from a record without its trace, for whoever goes through many records."""

from pathlib import Path

import msgspec

from recommender.deriving.derived import SIDES
from recommender.ground.flaw import Flaw, Flawed
from recommender.ground.place import whole_file
from recommender.reading.files import read_bytes
from recommender.records.record import FORMAT, id_of, stored
from recommender.records.store import LARGEST_BYTES, NAME, SUFFIX, read_record

# Keys stand sorted in a record, and a quotation mark inside a text is written \", so only keys are found by these.
TRACE, AFTER = b',"trace":{', b'},"book":{'
# They differ in the trace alone.
READ_WITHOUT_TRACE = ("borewright/record/1", FORMAT)


class StoredValue(msgspec.Struct, frozen=True):
    """What a record says of one fact."""

    value: float | None = None
    low: float | None = None
    high: float | None = None
    word: str | bool | None = None
    unknown: str | None = None
    could_be: tuple[str, ...] = ()
    sampling: float | None = None
    assumed: bool | None = None
    not_applicable: bool | None = None
    beyond: float | None = None


class StoredOption(msgspec.Struct, frozen=True):
    """One option of a remedy."""

    part: str
    part_id: str
    condition: str
    facts: dict[str, StoredValue]


class StoredRemedy(msgspec.Struct, frozen=True):
    """One remedy with its options."""

    id: str
    options: tuple[StoredOption, ...]


class StoredSide(msgspec.Struct, frozen=True):
    """One side with its remedies."""

    facts: dict[str, StoredValue]
    remedies: tuple[StoredRemedy, ...]


class StoredFrame(msgspec.Struct, frozen=True):
    """The frame, and whether it was refused for damage."""

    facts: dict[str, StoredValue]
    damage: bool


class StoredCase(msgspec.Struct, frozen=True):
    """Which case it was and when it was received."""

    id: str
    received: str


class StoredAdvice(msgspec.Struct, frozen=True):
    """What of an advice is needed to decide again."""

    case: StoredCase
    frame: StoredFrame
    sides: dict[str, StoredSide]


class Decided(msgspec.Struct, frozen=True):
    """A record without its trace and without what was printed."""

    format: str
    case_text: str
    advice: StoredAdvice


_RECORD = msgspec.json.Decoder(Decided)


def read_decided(path: Path) -> Decided:
    """Return what was decided in a record; raises Flawed as `read_record` does.

    The whole file is checked against its name all the same. A record in any other form is read in full.
    """
    raw = read_bytes(path, largest=LARGEST_BYTES)
    named = NAME.fullmatch(path.stem)
    if named is not None and path.suffix == SUFFIX and id_of(named["case"], raw) == path.stem:
        found = _decoded(raw)
        if found is not None and found.format in READ_WITHOUT_TRACE and found.advice.case.id == named["case"]:
            return found
    return _in_full(path)


def _in_full(path: Path) -> Decided:
    content = read_record(path).content
    try:
        return _RECORD.decode(stored(content))
    except msgspec.DecodeError as refused:
        message = f"this record cannot be decided again ({refused})"
        raise Flawed([Flaw("record.form", whole_file(str(path)), message, "Look at it with `records show`.")]) from None


def _decoded(raw: bytes) -> Decided | None:
    try:
        found = _RECORD.decode(_without_trace(raw))
    except (msgspec.DecodeError, UnicodeDecodeError):
        return None
    return found if set(found.advice.sides) == set(SIDES) else None


def _without_trace(raw: bytes) -> bytes:
    start, end = raw.find(TRACE), raw.rfind(AFTER)
    return raw[:start] + TRACE + b"}" + raw[end:] if 0 <= start < end else raw
