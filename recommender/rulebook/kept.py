"""The assembled book kept between runs in the user's cache folder: rule files that did not change are not read again.

What is kept stands under the sha256 of every rule file, of their names and of this program, and begins with the sha256
of itself. Anything else, unreadable or of another hash, is as good as not there. Nothing in it is run.
"""

import hashlib
import os
import tempfile
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

from recommender import ENGINE
from recommender.ground.flaw import Flawed
from recommender.reading.files import below, read_bytes
from recommender.rulebook.book import Rulebook
from recommender.rulebook.stored import restored, stored

PACKAGE = Path(__file__).resolve().parent.parent
PROGRAM = ("ground", "reading", "facts", "logic", "rulebook")
KEPT = 8
LARGEST_BYTES = 8_000_000


def key_of(folder: Path) -> str | None:
    """Return the hash that stands for the rule files in a folder; None where one of them cannot be read."""
    hashed = hashlib.sha256(f"{ENGINE}\n{folder.resolve().name}\n".encode())
    try:
        for part in (*_program(), *_files(folder)):
            hashed.update(f"{len(part)}:".encode() + part)
    except (Flawed, OSError):
        return None
    return hashed.hexdigest()


def recalled(key: str) -> Rulebook | None:
    """Return the book kept under a key, None where there is none that is whole."""
    try:
        own, _, text = read_bytes(_path(key), largest=LARGEST_BYTES).partition(b"\n")
        if hashlib.sha256(text).hexdigest().encode() != own:
            return None
        return restored(text)
    except (Flawed, OSError, ValueError, KeyError, TypeError, RecursionError, RuntimeError):
        return None


def keep(key: str, book: Rulebook) -> None:
    """Keep a book under a key, whole or not at all whoever else is writing; where that cannot be, it is left."""
    with suppress(OSError, TypeError, RuntimeError):
        text = stored(book).encode("ascii")
        path = _path(key)
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        handle, part = tempfile.mkstemp(dir=path.parent, suffix=".part")
        try:
            with os.fdopen(handle, "wb") as opened:
                opened.write(hashlib.sha256(text).hexdigest().encode() + b"\n" + text)
            os.replace(part, path)
        finally:
            Path(part).unlink(missing_ok=True)
        _forget_oldest(path.parent)


def _forget_oldest(folder: Path) -> None:
    newest_first = sorted(folder.glob("*.json"), key=lambda path: path.stat().st_mtime_ns, reverse=True)
    for path in newest_first[KEPT:]:
        path.unlink(missing_ok=True)


def _path(key: str) -> Path:
    """Return where a book is kept: the cache folder of this user, by the custom of the system."""
    home = os.environ.get("XDG_CACHE_HOME") or os.environ.get("LOCALAPPDATA")
    return (Path(home) if home else Path.home() / ".cache") / "borewright" / "books" / f"{key}.json"


def _files(folder: Path) -> Iterator[bytes]:
    """Yield name and content of every rule file, and the names of all others, sorted by name."""
    for path in below(folder):
        yield os.fsencode(path.relative_to(folder).as_posix())
        yield read_bytes(path) if path.suffix.casefold() == ".yaml" else b""


def _program() -> Iterator[bytes]:
    """Yield what changes when the part of this program that makes books is changed."""
    for name in PROGRAM:
        for path in sorted((PACKAGE / name).rglob("*.py")):
            found = path.stat()
            yield f"{name}/{path.name} {found.st_size} {found.st_mtime_ns}".encode()
