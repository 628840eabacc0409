"""What was done with a frame in the end, stored beside its record; it never changes a verdict."""

import json
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager, suppress
from datetime import date
from pathlib import Path
from typing import Any, Literal

from pydantic import Field, ValidationError

from recommender.ground.flaw import Flaw, Flawed
from recommender.ground.place import whole_file
from recommender.reading.files import is_there, read_bytes, write_atomically
from recommender.reading.model import Model
from recommender.reading.types import IsoDate
from recommender.records.after_pressing import wrong_answer
from recommender.records.record import Content, Record, canonical
from recommender.records.store import read_record

FORMAT: Literal["borewright/disposition/1"] = "borewright/disposition/1"
NOTHING = "nothing"


class Done(Model):
    """One entry: who did what and when, with the remedy done on each side (`nothing` for none, or not said).

    `checks` are the answers to what is checked after pressing, `look_again` the day the frame is to come back.
    """

    by: str
    dated: IsoDate
    what: str
    drive: str | None = None
    non_drive: str | None = None
    reason: str = ""
    checks: dict[str, str] = Field(default_factory=dict)
    look_again: IsoDate | None = None

    @property
    def pressed(self) -> tuple[str, ...]:
        """Return the sides on which something was done."""
        told = {"drive": self.drive, "non_drive": self.non_drive}
        return tuple(side for side, what in told.items() if what not in (None, NOTHING))


class _Dispositions(Model):
    format: Literal["borewright/disposition/1"]
    record: str
    entries: list[Done]


def disposition_path(record: Path) -> Path:
    """Return where the disposition of a record is stored."""
    return record.with_name(f"{record.stem}.disposition.json")


def dispositions(record: Path) -> tuple[Done, ...]:
    """Return what was entered for a record, in the order entered; raises Flawed when it cannot be read."""
    path = disposition_path(record)
    return tuple(_read(path, record.stem).entries) if is_there(path) else ()


def enter(path: Path, done: Done) -> None:
    """Add an entry to the disposition of the record at a path; the record itself is not touched.

    The file holds all earlier entries and this one, or is as it was, whenever the program ends; two people entering
    at once lose nothing. Raises Flawed when the record cannot be relied on, or the entry lacks something.
    """
    record = read_record(path)
    if missing := lacking(record, done):
        raise Flawed([_flaw(path, each) for each in missing])
    with _alone(path):
        entries = [*dispositions(path), done]
        kept = _Dispositions(format=FORMAT, record=record.id, entries=entries)
        write_atomically(disposition_path(path), canonical(kept.model_dump(mode="json")))


def lacking(record: Record, done: Done) -> tuple[str, ...]:
    """Return in words what an entry lacks: who, what, a known remedy, a reason where it differs, a possible date."""
    return tuple(_lacking(record.content, done))


def differing(content: Content, done: Done) -> tuple[str, ...]:
    """Return the sides on which something else was done than decided."""
    decided = {name: _decided(side) for name, side in content.advice["sides"].items()}
    told = {"drive": done.drive, "non_drive": done.non_drive}
    return tuple(name for name, what in told.items() if what is not None and what != decided[name])


def _lacking(content: Content, done: Done) -> Iterator[str]:
    if not done.by.strip() or not done.what.strip():
        yield "who and what must both be said"
    received = date.fromisoformat(content.advice["case"]["received"])
    if done.dated < received:
        yield f"{done.dated.isoformat()} is before the frame was received ({received.isoformat()})"
    if done.look_again is not None and done.look_again <= done.dated:
        yield f"{done.look_again.isoformat()} is no day after {done.dated.isoformat()} on which to look again"
    yield from filter(None, (wrong_answer(*each) for each in done.checks.items()))
    for name, what in (("drive", done.drive), ("non_drive", done.non_drive)):
        known = [NOTHING, *(each["id"] for each in content.advice["sides"][name]["remedies"])]
        if what is not None and what not in known:
            yield f"`{what}` is no remedy on the {name} side; known are {', '.join(known)}"
    if (sides := differing(content, done)) and not done.reason.strip():
        yield f"something else was done than decided ({', '.join(sides)}): a reason must be given"


def _decided(side: dict[str, Any]) -> str:
    """Return what a verdict asks to be done: its remedy, or nothing while the frame must wait or is refused."""
    return str(side["verdict"]) if side["verdict"] == side["remedy"] else NOTHING


def _read(path: Path, record: str) -> _Dispositions:
    try:
        found = _Dispositions.model_validate(json.loads(read_bytes(path)))
    except (ValueError, RecursionError, ValidationError):
        raise Flawed([_flaw(path, "this file has not the form of a disposition")]) from None
    if found.record != record:
        raise Flawed([_flaw(path, f"this is the disposition of another record, {found.record}")])
    return found


@contextmanager
def _alone(record: Path) -> Iterator[None]:
    """Hold the record so that nobody else enters a disposition meanwhile, where the system can do that.

    Raises Flawed when the system refuses it.
    """
    with ExitStack() as held:
        try:
            opened = held.enter_context(record.open("rb"))
            with suppress(ImportError):
                import fcntl

                fcntl.flock(opened, fcntl.LOCK_EX)
        except OSError as refused:
            raise Flawed([_flaw(record, f"this record cannot be held ({refused.strerror or refused})")]) from None
        yield


def _flaw(path: Path, message: str) -> Flaw:
    return Flaw("record.disposition", whole_file(str(path)), message, "Correct it and enter it again.")
