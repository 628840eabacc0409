"""The output of a sweep: continued after its last whole line, nothing lost or doubled."""

import json
import os
import stat
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import BinaryIO

from recommender.ground.flaw import Flaw, Flawed
from recommender.ground.place import whole_file
from recommender.trials.many_items import Where, read_item
from recommender.trials.many_lines import START, head_of

LONGEST_LINE = 1_000_000
AGAIN = "Move that file away, or sweep into another one."


@contextmanager
def opened_alone(path: Path) -> Iterator[BinaryIO]:
    """Open an output to read and write, made if need be, so that no other sweep writes it meanwhile.

    Raises Flawed when it cannot be written, or is being written.
    """
    try:
        opened = os.fdopen(os.open(path, os.O_RDWR | os.O_CREAT, 0o666), "r+b")
    except (OSError, ValueError) as refused:
        reason = getattr(refused, "strerror", None) or refused
        raise Flawed([_flaw(path, f"this file cannot be written ({reason})", "Name another file.")]) from None
    with opened:
        if not stat.S_ISREG(os.fstat(opened.fileno()).st_mode):
            raise Flawed([_flaw(path, "this is a device or pipe, not a file", "Name an ordinary file.")])
        _lock(opened, path)
        yield opened


def lines_there(opened: BinaryIO, path: Path, cases: Iterator[Where], stamp: str) -> Iterator[str]:
    """Yield the whole lines of an output, each compared with the case it must belong to, which is taken off `cases`.

    What is left of a line that was being written is cut off. Raises Flawed, and leaves the file as it is, when it
    holds anything else or was made from other cases or by other rules.
    """
    end = 0
    for number, line in enumerate(iter(partial(opened.readline, LONGEST_LINE), b""), 1):
        if len(line) == LONGEST_LINE:
            raise Flawed([_flaw(path, f"line {number} was not written by a sweep", AGAIN)])
        if not line.endswith(b"\n"):
            _check_start(line, path, number)
            break
        _check_line(line, path, number, next(cases, None), stamp)
        end += len(line)
        yield line.decode("utf-8").rstrip("\n")
    opened.seek(end)
    opened.truncate()


def _check_start(line: bytes, path: Path, number: int) -> None:
    start = START.encode("ascii")
    if line[: len(start)] != start[: len(line)]:
        raise Flawed([_flaw(path, f"line {number} was not written by a sweep", AGAIN)])


def _check_line(line: bytes, path: Path, number: int, where: Where | None, stamp: str) -> None:
    _check_start(line, path, number)
    if where is None:
        raise Flawed([_flaw(path, f"line {number} belongs to no case: there are fewer cases", AGAIN)])
    told, item = _told(line, path, number), read_item(where)
    if told.get("rules") != stamp:
        raise Flawed([_flaw(path, f"line {number} was judged by other rules or another version", AGAIN)])
    if any(told.get(key) != value for key, value in head_of(item).items()):
        raise Flawed([_flaw(path, f"line {number} was made from another case than {item.source}", AGAIN)])


def _told(line: bytes, path: Path, number: int) -> dict[str, object]:
    try:
        told: dict[str, object] = json.loads(line.decode("utf-8"))
    except (ValueError, RecursionError):
        raise Flawed([_flaw(path, f"line {number} is not whole", AGAIN)]) from None
    return told


def _lock(opened: BinaryIO, path: Path) -> None:
    try:
        import fcntl
    except ImportError:  # no such thing on this system
        return
    try:
        fcntl.flock(opened, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        raise Flawed([_flaw(path, "another sweep is writing this file", "Wait for it, or name another.")]) from None


def _flaw(path: Path, message: str, advice: str) -> Flaw:
    return Flaw("sweep.output", whole_file(str(path)), message, advice)
