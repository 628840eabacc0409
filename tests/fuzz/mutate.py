"""Changes to a text that leave most of it as it was, so that what comes out still reaches the checks far inside."""

import re
from collections.abc import Callable, Sequence
from random import Random

WORD = re.compile(rb"[^\s,:\[\]{}\"']+")
# Written, not meant: numbers at the ends of what a float holds, other digits, other words for the same thing.
HOSTILE = (
    *(b"0", b"-0", b"-1", b"1e308", b"1e309", b"-1e308", b"5e-324", b"2.2e-308", b"1e-400", b"9" * 29, b"9" * 400),
    *(b"0.0000000000001", b"1e-9 mm", b"1e300 mm", b"-45.9 mm", b"45.972 mm", b"4 um", b"1e308 um", b"5e-324 mm"),
    *(b".inf", b"-.inf", b".nan", b"nan", b"inf", b"1_000", b"0x1f", b"0o17", b"010", b"1:30", b"1,5", b"\xd9\xa3"),
    *(b"null", b"~", b"true", b"no", b"unknown", b"none", b"every", b"2026-02-30", b"0001-01-01", b"9999-12-31"),
    *(b"{}", b"[]", b"[[]]", b"{a: 1}", b"''", b'""', b"&a", b"*a", b"!t", b"<<", b"?", b"|", b">", b"---", b"..."),
    *(b"\xff", b"\xc3\x28", b"\x00", b"\xef\xbb\xbf", b"\xe2\x80\x8b", b"\xe2\x80\xa8", b"\x1b[2J", b"\t", b"\r"),
    *(b"../../etc/passwd", b"/dev/zero", b"a" * 300, b"\xf0\x9f\x9a\xb2", b'"\\ud800"', b'"\\0"', b'"\\x07"'),
)  # fmt: skip


def _another_word(text: bytes, pool: Sequence[bytes], random: Random) -> bytes:
    found = _some_word(text, random)
    return text if found is None else text[: found.start()] + random.choice(HOSTILE) + text[found.end() :]


def _word_of_its_own(text: bytes, pool: Sequence[bytes], random: Random) -> bytes:
    here, there = _some_word(text, random), _some_word(random.choice(pool), random)
    return text if here is None or there is None else text[: here.start()] + there[0] + text[here.end() :]


def _line_gone(text: bytes, pool: Sequence[bytes], random: Random) -> bytes:
    lines = text.splitlines(keepends=True)
    if lines:
        del lines[random.randrange(len(lines))]
    return b"".join(lines)


def _line_of_another(text: bytes, pool: Sequence[bytes], random: Random) -> bytes:
    lines, others = text.splitlines(keepends=True), random.choice(pool).splitlines(keepends=True)
    if others:
        lines.insert(random.randint(0, len(lines)), random.choice(others))
    return b"".join(lines)


def _lines_again(text: bytes, pool: Sequence[bytes], random: Random) -> bytes:
    lines = text.splitlines(keepends=True)
    start = random.randint(0, len(lines))
    return b"".join([*lines[:start], *lines[start : start + 3] * random.choice((2, 3, 40)), *lines[start:]])


def _cut_off(text: bytes, pool: Sequence[bytes], random: Random) -> bytes:
    return text[: random.randint(0, len(text))]


def _piece_gone(text: bytes, pool: Sequence[bytes], random: Random) -> bytes:
    start = random.randint(0, len(text))
    return text[:start] + text[start + random.choice((1, 2, 8, 30)) :]


def _one_byte(text: bytes, pool: Sequence[bytes], random: Random) -> bytes:
    at = random.randint(0, len(text))
    return text[:at] + bytes([random.randrange(256)]) + text[at + random.randint(0, 1) :]


def _shifted(text: bytes, pool: Sequence[bytes], random: Random) -> bytes:
    lines = text.splitlines(keepends=True)
    if lines:
        at = random.randrange(len(lines))
        lines[at] = b" " * random.choice((1, 2, 4)) + lines[at] if random.random() < 0.5 else lines[at].lstrip(b" ")
    return b"".join(lines)


def _two_joined(text: bytes, pool: Sequence[bytes], random: Random) -> bytes:
    other = random.choice(pool)
    return text[: random.randint(0, len(text))] + other[random.randint(0, len(other)) :]


def _some_word(text: bytes, random: Random) -> re.Match[bytes] | None:
    return WORD.search(text, random.randrange(len(text))) if text else None


Change = Callable[[bytes, Sequence[bytes], Random], bytes]
CHANGES: tuple[Change, ...] = (
    *(_another_word, _another_word, _word_of_its_own, _word_of_its_own, _line_gone, _line_of_another),
    *(_lines_again, _cut_off, _piece_gone, _one_byte, _shifted, _two_joined),
)


def changed(text: bytes, pool: Sequence[bytes], random: Random) -> bytes:
    """Return a text after one to four changes, most often one; `pool` is what pieces of other texts come from."""
    for _ in range(random.choice((1, 1, 1, 2, 2, 4))):
        text = random.choice(CHANGES)(text, pool, random)
    return text
