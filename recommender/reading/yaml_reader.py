"""The one YAML reader: every YAML file passes through here and nothing else calls the parser."""

import re
from collections.abc import Iterator
from itertools import islice
from pathlib import Path as FilePath
from typing import Any

import yaml

from recommender.ground.flaw import Flaw, Flawed, flaw
from recommender.ground.place import LINE_END, Place
from recommender.reading.document import Document
from recommender.reading.files import LARGEST_BYTES, read_text_file, too_large
from recommender.reading.steps import Kind, Step, made
from recommender.reading.syntax import Problem, syntax_flaw
from recommender.reading.tree import Stopped, TreeBuilder, empty

__all__ = ["Document", "read_file", "read_text", "steps"]

Loader = Any
PURE: Loader = yaml.SafeLoader
FASTEST: Loader = yaml.CSafeLoader if yaml.__with_libyaml__ else yaml.SafeLoader
UNREADABLE = re.compile(r"[^\n\r\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")
MOST_HIDDEN = 10
MOST_READ_TWICE = 10_000
LONGEST_READ_TWICE = 100_000
TAB = ("yaml.tab", "a tab stands here, which parsers read in different ways", "Replace the tab by spaces.")
KINDS: dict[type, Kind] = {
    yaml.ScalarEvent: "scalar", yaml.AliasEvent: "alias", yaml.MappingStartEvent: "mapping",
    yaml.SequenceStartEvent: "list", yaml.MappingEndEvent: "end", yaml.SequenceEndEvent: "end",
}  # fmt: skip
PARSER_STOPS = (yaml.YAMLError, ValueError, OverflowError, IndexError)


def read_file(path: FilePath | str, shown_name: str | None = None) -> Document:
    """Return the document in a file; raises Flawed when it cannot be opened or is not what we read."""
    shown = str(path) if shown_name is None else shown_name
    return read_text(read_text_file(path, shown), shown)


def read_text(text: str, file: str) -> Document:
    """Return the document in a YAML text; raises Flawed with every flaw found in it.

    `file` is the name shown in places. The top level is always a mapping; keys are always text.
    """
    text = text.removeprefix("\ufeff")
    if len(text.encode("utf-8", "replace")) > LARGEST_BYTES:
        raise Flawed([too_large(file)])
    unreadable = [_unreadable(text, file, match) for match in islice(UNREADABLE.finditer(text), MOST_HIDDEN)]
    if len(unreadable) == MOST_HIDDEN:
        raise Flawed(unreadable)
    return _read(text, file, unreadable, FASTEST)


def steps(text: str, file: str, loader: Loader = FASTEST) -> Iterator[Step]:
    """Yield the parser's steps through all documents of a text, without any rule applied.

    Raises one of PARSER_STOPS where the parser gives up; meant for looking into files that are refused.
    """
    for event in yaml.parse(_readable(text), Loader=loader):
        step = _step(event, file)
        if step is not None:
            yield step


def _read(text: str, file: str, unreadable: list[Flaw], loader: Loader) -> Document:
    builder = TreeBuilder(file, text)
    builder.flaws += unreadable
    try:
        builder.take(_whole_stream(builder, loader))
    except Stopped:
        raise Flawed(builder.flaws) from None
    except PARSER_STOPS as stop:
        # The two parsers word and place their complaints differently; the pure one, which is slow, is asked for both.
        if loader is not PURE and _short(builder):
            return _read(text, file, unreadable, PURE)
        # With unreadable characters in the text, where the parser stops says nothing new.
        last = [] if unreadable else [syntax_flaw(text, file, _problem(stop))]
        raise Flawed([*builder.flaws, *last]) from None
    return _finished(builder)


def _short(builder: TreeBuilder) -> bool:
    return builder.taken <= MOST_READ_TWICE and len(builder.text) <= LONGEST_READ_TWICE


def _finished(builder: TreeBuilder) -> Document:
    if builder.root is None and not builder.flaws:
        raise Flawed([empty(builder.file)])
    if builder.flaws:
        raise Flawed(builder.flaws)
    if not isinstance(builder.root, dict):
        builder.note(
            "top-level",
            builder.places[()].value,
            "the file must be made of `key: value` lines",
            "Start with a key.",
        )
        raise Flawed(builder.flaws)
    return builder.document()


def _whole_stream(builder: TreeBuilder, loader: Loader) -> Iterator[Step]:
    documents = 0
    for event in yaml.parse(_readable(builder.text), Loader=loader):
        if isinstance(event, yaml.DocumentStartEvent):
            documents += 1
            if event.version or event.tags:
                builder.note(
                    "directive",
                    _place(event, builder.file),
                    "`%` directives are not read here",
                    "Remove the line.",
                )
            if documents > 1:
                builder.note(
                    "documents",
                    _place(event, builder.file),
                    "a second document starts here",
                    "Keep one document per file; remove the `---`.",
                )
                return
        step = _step(event, builder.file)
        if step is not None:
            if step.value and not step.plain:
                _refuse_hidden(builder, step)
            yield step


def _readable(text: str) -> str:
    """Return the text with the same places, but nothing in it at which a parser stops before it starts.

    Without a line end at the very end the two parsers count the last line differently.
    """
    readable = UNREADABLE.sub("x", text.replace("\t", " "))
    return readable if readable.endswith("\n") else readable + "\n"


def _refuse_hidden(builder: TreeBuilder, step: Step) -> None:
    """Note a character that nobody can see: in the text there is none any more, but quotes may spell one out."""
    hidden = UNREADABLE.search(step.value.replace("\t", " "))
    if hidden:
        message = f"this text holds a character nobody can see (U+{ord(hidden[0]):04X})"
        builder.note("hidden-character", step.place, message, "Write the text without it.")


def _step(event: Any, file: str) -> Step | None:
    kind = KINDS.get(type(event))
    if kind == "scalar":
        return made(Step, (kind, _place(event, file), event.value, not event.style, _mark(event)))
    if kind == "end":
        return made(Step, (kind, _place(event, file), "", False, ""))
    if kind == "alias":
        return Step(kind, _place(event, file), event.anchor or "")
    return None if kind is None else Step(kind, _place(event, file), "", False, _mark(event))


def _mark(event: Any) -> str:
    return "anchor" if event.anchor is not None else "tag" if event.tag is not None else ""


def _place(event: Any, file: str) -> Place:
    start, end = event.start_mark, event.end_mark
    return made(Place, (file, start.line + 1, start.column + 1, end.line + 1, end.column + 1))


def _problem(stop: Exception) -> Problem:
    mark = getattr(stop, "problem_mark", None)
    began = getattr(stop, "context_mark", None)
    return Problem(
        str(getattr(stop, "problem", stop)),
        str(getattr(stop, "context", "")),
        (mark.line + 1, mark.column + 1) if mark else (1, 1),
        (began.line + 1, began.column + 1) if began else None,
    )


def _unreadable(text: str, file: str, match: re.Match[str]) -> Flaw:
    before = LINE_END.split(text[: match.start()])
    line, column = len(before), len(before[-1]) + 1
    check, message, advice = TAB if match[0] == "\t" else _hidden(match[0])
    return flaw(check, Place(file, line, column, line, column + 1), text, message, advice)


def _hidden(character: str) -> tuple[str, str, str]:
    message = f"a character nobody can see stands here (U+{ord(character):04X})"
    return "yaml.hidden-character", message, "Delete it; it often comes from copying out of another program."
