"""Opening and writing files, with a clear flaw for everything that can go wrong."""

import os
import stat
from pathlib import Path

from recommender.ground.flaw import Flaw, Flawed, flaw
from recommender.ground.place import LINE_END, Place, whole_file

LARGEST_BYTES = 1_000_000
MOST_ENTRIES = 1_000
UTF_16 = (b"\xff\xfe", b"\xfe\xff")


def read_text_file(path: Path | str, shown: str | None = None, largest: int = LARGEST_BYTES) -> str:
    """Return the text of an ordinary UTF-8 file, without byte order mark; raises Flawed if there is none."""
    name = str(path) if shown is None else shown
    return _decoded(read_bytes(path, name, largest), name)


def read_bytes(path: Path | str, shown: str | None = None, largest: int = LARGEST_BYTES) -> bytes:
    """Return the bytes of an ordinary file; raises Flawed when it is none or is larger than `largest`."""
    name = str(path) if shown is None else shown
    try:
        found = os.stat(path)
        if not stat.S_ISREG(found.st_mode):
            raise Flawed([_no_ordinary_file(name, found.st_mode)])
        if found.st_size > largest:
            raise Flawed([too_large(name, largest)])
        with open(path, "rb") as opened:
            # Asking for more than there is would reserve room for the largest file each time.
            content = opened.read(found.st_size + 1)
            if len(content) > found.st_size:
                content += opened.read(largest + 1 - len(content))
    except (OSError, ValueError) as refused:
        raise Flawed([_cannot_open(name, refused)]) from None
    if len(content) > largest:
        raise Flawed([too_large(name, largest)])
    return content


def is_there(path: Path) -> bool:
    """Return whether anything lies at a path, a link to nothing too; raises Flawed when that cannot be told."""
    try:
        os.lstat(path)
    except (FileNotFoundError, NotADirectoryError):
        return False
    except (OSError, ValueError) as refused:
        raise Flawed([_cannot_open(str(path), refused)]) from None
    return True


def write_atomically(path: Path | str, text: str) -> None:
    """Write a text as UTF-8 so that the file is the old one or the new one, never half of it.

    Raises Flawed when the folder or the file cannot be written.
    """
    name = str(path)
    try:
        target = Path(os.path.realpath(path))
        if target.exists() and not target.is_file():
            raise Flawed([_no_ordinary_file(name, target.stat().st_mode)])
        # Half a character, which only the name of a file can hold, is spelt out.
        _replace(target, text.encode("utf-8", "backslashreplace"))
    except (OSError, ValueError) as refused:
        raise Flawed([_cannot_write(name, refused)]) from None


def below(folder: Path) -> list[Path]:
    """Return everything below a folder that is no folder itself, and links to folders, sorted.

    What cannot be opened is there too. Raises Flawed when a folder cannot be looked into, or when more than
    MOST_ENTRIES files and folders lie there.
    """
    found: list[Path] = []
    seen = 0
    for at, folders, names in os.walk(folder, onerror=_not_searched):
        found += [Path(at, each) for each in names]
        found += [Path(at, each) for each in folders if os.path.islink(os.path.join(at, each))]
        seen += len(folders) + len(names)
        if seen > MOST_ENTRIES:
            message = f"more than {MOST_ENTRIES} files and folders lie in this folder"
            raise Flawed([_of_file("many", str(folder), message, "Name the folder of the rules alone.")])
    return sorted(found)


def too_large(shown: str, largest: int = LARGEST_BYTES) -> Flaw:
    """Return the flaw of a file that is larger than `largest` bytes."""
    message = f"larger than {largest // 1000} kB"
    return _of_file("too-large", shown, message, "Nothing read here is that long; is it the right file?")


def _not_searched(error: OSError) -> None:
    raise Flawed([_cannot_open(str(error.filename), error)]) from None


def _replace(target: Path, content: bytes) -> None:
    part = target.parent / f".{os.getpid()}.part"
    try:
        part.unlink(missing_ok=True)
        with open(part, "xb") as opened:
            opened.write(content)
            opened.flush()
            os.fsync(opened.fileno())
        os.replace(part, target)
    finally:
        part.unlink(missing_ok=True)


def _decoded(content: bytes, shown: str) -> str:
    if content.startswith(UTF_16):
        raise Flawed([_of_file("encoding", shown, "this text is in UTF-16", "Save it as UTF-8.")])
    if b"\0" in content:
        raise Flawed([_of_file("binary", shown, "this is not a text file", "Give a text file in UTF-8.")])
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise Flawed([_not_utf8(content, shown, error.start)]) from None


def _not_utf8(content: bytes, shown: str, offset: int) -> Flaw:
    text = content.decode("utf-8-sig", errors="replace")
    before = LINE_END.split(content[:offset].decode("utf-8-sig", errors="replace"))
    line, column = len(before), len(before[-1]) + 1
    place = Place(shown, line, column, line, column + 1)
    return flaw("file.encoding", place, text, "this character is not UTF-8", "Save the file as UTF-8.")


def _no_ordinary_file(shown: str, mode: int) -> Flaw:
    what = "a folder" if stat.S_ISDIR(mode) else "a device or pipe"
    return _of_file("not-a-file", shown, f"this is {what}, not a file", "Name an ordinary file.")


def _cannot_open(shown: str, error: Exception) -> Flaw:
    if isinstance(error, FileNotFoundError | NotADirectoryError):
        message = "there is no such file or folder"
        return _of_file("missing", shown, message, "Check the spelling of its name and folder.")
    if isinstance(error, PermissionError):
        return _of_file(
            "permission", shown, "no permission to read this file", "Ask its owner for permission to read it."
        )
    return _of_file(
        "unreadable", shown, f"this file cannot be opened ({_reason(error)})", "Check its name and its disk."
    )


def _cannot_write(shown: str, error: Exception) -> Flaw:
    if isinstance(error, FileNotFoundError | NotADirectoryError):
        return _of_file("missing", shown, "there is no folder to write this file to", "Create the folder first.")
    if isinstance(error, PermissionError):
        return _of_file("permission", shown, "no permission to write this file", "Choose another folder.")
    return _of_file(
        "unwritable", shown, f"this file cannot be written ({_reason(error)})", "Check its name and its disk."
    )


def _reason(error: Exception) -> str:
    return (error.strerror if isinstance(error, OSError) else str(error)) or type(error).__name__


def _of_file(check: str, shown: str, message: str, advice: str) -> Flaw:
    return Flaw(f"file.{check}", whole_file(shown), message, advice)
