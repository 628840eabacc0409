"""Records in a folder: written once and whole, read only when nothing about them was changed."""

import json
import os
import re
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path
from typing import Any

from recommender.bench.peek import peek_in
from recommender.deciding.notices import FALLBACK
from recommender.ground.flaw import Flaw, Flawed
from recommender.ground.place import whole_file
from recommender.reading.files import is_there, read_bytes, write_atomically
from recommender.records.record import LETTERS_OF_HASH, Content, Record, content_from, id_of, stored
from recommender.records.restore import NO_ADVICE, advice_from
from recommender.records.upgrade import upgraded

LARGEST_BYTES = 64_000_000
SUFFIX = ".json"
CRACK, DAMAGE = "crack", "damage"
NAME = re.compile(rf"(?P<case>[A-Za-z0-9][A-Za-z0-9_.-]*)-[0-9a-f]{{{LETTERS_OF_HASH}}}")


def keep(record: Record, folder: Path) -> Path:
    """Write a record into a folder, made if need be, and return its path.

    The file is there whole or not at all, whenever the program ends. A record that is there already stays as it is;
    raises Flawed when something else stands under its name, or when the folder cannot be written.
    """
    path = folder / f"{record.id}{SUFFIX}"
    text = stored(record.content)
    _made(folder)
    if is_there(path):
        if read_bytes(path, largest=LARGEST_BYTES) != text.encode("utf-8"):
            raise Flawed([_flaw(path, "taken", "another content stands under the name of this record", TAKEN)])
        return path
    write_atomically(path, text)
    _flush(folder)
    return path


def read_record(path: Path) -> Record:
    """Return the record in a file, upgraded to the present format.

    Raises Flawed when there is none, when its content is not the one its name was made from, when its format is not
    known here, or when it says nothing of the damage it holds.
    """
    content = read_bytes(path, largest=LARGEST_BYTES)
    named = NAME.fullmatch(path.stem)
    if named is None or path.suffix != SUFFIX:
        raise Flawed([_flaw(path, "name", "this is not the name of a record", NAMED)])
    if id_of(named["case"], content) != path.stem:
        raise Flawed([_flaw(path, "changed", "what stands in this record is not what was kept", CHANGED)])
    record = Record(path.stem, _content(content, path))
    if record.content.case != named["case"]:
        raise Flawed([_flaw(path, "name", f"this is a record of the case `{record.content.case}`", RENAMED)])
    if hides_damage(record.content):
        raise Flawed([_flaw(path, "damage", "this record does not tell of the damage it holds", CHANGED)])
    return record


def hides_damage(content: Content) -> bool:
    """Return whether a crack in the case leads to no refusal, or a refusal for damage comes without its notice.

    No answer was ever like that. A hash is no signature: whoever rewrites a record can give it a name that fits.
    """
    frame = content.advice["frame"]
    if frame["damage"] and not any(_says_not_to_ride(each) for each in content.advice["notices"]):
        return True
    refused = frame["damage"] and frame["verdict"] == "refuse"
    # A word in quotes may be spelt with escapes; most cases name no crack and are not read again for that.
    named = CRACK in content.case_text or "\\" in content.case_text
    return named and not refused and CRACK in peek_in(content.case_text)


def _says_not_to_ride(notice: dict[str, Any]) -> bool:
    return bool(notice["id"] == DAMAGE and FALLBACK[DAMAGE] in notice["text"])


def is_record(path: Path) -> bool:
    """Return whether a path is named as records are."""
    return path.suffix == SUFFIX and NAME.fullmatch(path.stem) is not None


def record_files(paths: Iterable[Path]) -> tuple[Path, ...]:
    """Return these files, and in place of each folder the records in it, sorted.

    Raises Flawed when a folder cannot be looked into.
    """
    return tuple(each for path in paths for each in (_inside(path) if path.is_dir() else (path,)))


def earlier_round(follows: str | None, folder: Path) -> Record | None:
    """Return the record a case says it follows, None when it follows none or the folder has none of that id.

    Raises Flawed when it is there and was changed.
    """
    if follows is None or NAME.fullmatch(follows) is None:
        return None
    path = folder / f"{follows}{SUFFIX}"
    return read_record(path) if is_there(path) else None


def _inside(folder: Path) -> list[Path]:
    try:
        return sorted(each for each in folder.iterdir() if is_record(each))
    except OSError as refused:
        message = f"this folder cannot be looked into ({refused.strerror or refused})"
        raise Flawed([_flaw(folder, "folder", message, "Ask its owner for permission.")]) from None


def _content(content: bytes, path: Path) -> Content:
    try:
        data: Any = json.loads(content)
        found = content_from(upgraded(data, str(path)))
        advice_from(found.advice)
    except NO_ADVICE:
        raise Flawed([_flaw(path, "form", "this file has not the form of a record", NAMED)]) from None
    return found


def _made(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as refused:
        message = f"this folder cannot be made ({refused.strerror or refused})"
        raise Flawed([_flaw(folder, "folder", message, "Name a folder that can be written.")]) from None


def _flush(folder: Path) -> None:
    """Make the new name last through a loss of power, where the system can do that for a folder."""
    with suppress(OSError):
        opened = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(opened)
        finally:
            os.close(opened)


def _flaw(path: Path, check: str, message: str, advice: str) -> Flaw:
    return Flaw(f"record.{check}", whole_file(str(path)), message, advice)


NAMED = "Name a file that `advise --keep` wrote, under the name it was given then."
TAKEN = "Look at that file: it was changed after it was kept. Move it away, or keep into another folder."
CHANGED = "It was edited, cut off or renamed. Do not rely on it; take it from a copy, or judge the case again."
RENAMED = "Give it back the name it was kept under."
