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


def items(paths: Iterable[Path]) -> Iterator[Item]:
    """Yield the cases of these paths in order: folders by name, files with a line each by line.

    What cannot be read is an item too, with its flaws; nothing is raised. Only one case is held at a time.
    """
    for path in paths:
        if path.is_dir():
            for each in case_files(path):
                yield _file(each)
        elif path.suffix in LINES:
            yield from _lines(path)
        else:
            yield _file(path)


def count_items(paths: Iterable[Path]) -> int:
    """Return how many cases `items` would yield for these paths, without reading more of them than their lines."""
    return sum(_count(path) for path in paths)


def _count(path: Path) -> int:
    if path.is_dir():
        return len(case_files(path))
    if path.suffix not in LINES:
        return 1
    try:
        with path.open("rb") as opened:
            return sum(bool(line.strip()) for line in _whole_lines(opened))
    except (OSError, ValueError):
        return 1


def _file(path: Path) -> Item:
    try:
        return Item(str(path), str(path), 1, read_text_file(path))
    except Flawed as refused:
        return Item(str(path), str(path), 1, "", refused.flaws)


def _lines(path: Path) -> Iterator[Item]:
    try:
        opened = path.open("rb")
    except (OSError, ValueError):
        yield _file(path)  # says in words why it cannot be opened
        return
    with opened:
        for number, line in enumerate(_whole_lines(opened), 1):
            if line.strip():
                yield _line(path, number, line)


def _whole_lines(opened: BinaryIO) -> Iterator[bytes]:
    """Yield the lines of a file, one longer than may be read cut there and the rest of it passed over."""
    while line := opened.readline(LARGEST_BYTES + 1):
        rest = line
        while rest and not rest.endswith(b"\n") and len(rest) > LARGEST_BYTES:
            rest = opened.readline(LARGEST_BYTES + 1)
        yield line


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
