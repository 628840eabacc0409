"""Cases streamed from folders, case files and files with one JSON object a line."""

import json
import re
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import BinaryIO, NamedTuple

from recommender.ground.flaw import Flaw, Flawed
from recommender.ground.place import Place
from recommender.reading.files import LARGEST_BYTES, read_text_file, too_large
from recommender.trials.run_cases import case_files

LINES = (".ndjson", ".jsonl")
PAIR = re.compile(r"(?<!\\)((?:\\\\)*)\\u([dD][89abAB][0-9a-fA-F]{2})\\u([dD][c-fC-F][0-9a-fA-F]{2})")


class Item(NamedTuple):
    """One case to be judged: where it comes from, the file and line its text starts at, the text, or why there is none.

    `source` is the file, with the line number where one file holds many cases.
    """

    source: str
    file: str
    line: int
    text: str
    flaws: tuple[Flaw, ...] = ()


class Where(NamedTuple):
    """Where a case is to be read: a whole file, or the bytes from `start` to `end` that are one line of it."""

    path: Path
    line: int | None = None
    start: int = 0
    end: int = 0


def places(paths: Iterable[Path]) -> Iterator[Where]:
    """Yield where the cases of these paths are, in order: folders by name, files with a line each by line.

    Of files with a line each only the line ends are looked for; whoever judges a case reads it. Nothing is raised.
    """
    for path in paths:
        if path.is_dir():
            yield from map(Where, case_files(path))
        elif path.suffix in LINES:
            yield from _lines(path)
        else:
            yield Where(path)


def read_item(where: Where) -> Item:
    """Return the case at a place; what cannot be read is a case too, with its flaws. Nothing is raised."""
    path, line, start, end = where
    if line is None:
        return _file(path)
    try:
        with path.open("rb") as opened:
            opened.seek(start)
            return _line(path, line, opened.read(min(end - start, LARGEST_BYTES + 1)))
    except (OSError, ValueError):
        return _file(path)  # says in words why it cannot be read


def count_items(paths: Iterable[Path]) -> int:
    """Return how many cases these paths hold, without reading more of them than their lines."""
    return sum(1 for _ in places(paths))


def _file(path: Path) -> Item:
    try:
        return Item(str(path), str(path), 1, read_text_file(path))
    except Flawed as refused:
        return Item(str(path), str(path), 1, "", refused.flaws)


def _lines(path: Path) -> Iterator[Where]:
    try:
        if not path.is_file():
            yield Where(path)
            return
        opened = path.open("rb")
    except (OSError, ValueError):
        yield Where(path)
        return
    with opened:
        start = 0
        for number, (line, end) in enumerate(_whole_lines(opened), 1):
            if line.strip():
                yield Where(path, number, start, end)
            start = end


def _whole_lines(opened: BinaryIO) -> Iterator[tuple[bytes, int]]:
    """Yield the lines of a file with where they end, of one longer than may be read only its beginning."""
    end = 0
    while line := opened.readline(LARGEST_BYTES + 1):
        rest = line
        end += len(rest)
        while rest and not rest.endswith(b"\n") and len(rest) > LARGEST_BYTES:
            rest = opened.readline(LARGEST_BYTES + 1)
            end += len(rest)
        yield line, end


def _line(path: Path, number: int, content: bytes) -> Item:
    file = str(path)
    source = f"{file}:{number}"
    if len(content) > LARGEST_BYTES:
        return Item(source, file, number, "", (too_large(source),))
    try:
        text = content.decode("utf-8-sig" if number == 1 else "utf-8").strip()
        json.loads(text)
    except UnicodeDecodeError as error:
        text = content.decode("utf-8", "replace")
        return Item(source, file, number, text, (_flaw(file, number, error.start, "this character is not UTF-8"),))
    except json.JSONDecodeError as error:
        return Item(source, file, number, text, (_flaw(file, number, error.pos, "this line is not JSON"),))
    except (ValueError, RecursionError):
        return Item(source, file, number, text, (_flaw(file, number, 0, "this line is not JSON"),))
    return Item(source, file, number, _joined(text))


def _joined(text: str) -> str:
    """Return a JSON text with characters written as two halves put together, as the reader of cases wants them."""
    return PAIR.sub(lambda found: found[1] + _character(found[2], found[3]), text)


def _character(high: str, low: str) -> str:
    return bytes.fromhex(high + low).decode("utf-16-be")


def _flaw(file: str, line: int, offset: int, message: str) -> Flaw:
    place = Place(file, line, offset + 1, line, offset + 2)
    return Flaw("sweep.line", place, message, "Write each case as one JSON object on a line of its own, in UTF-8.")
