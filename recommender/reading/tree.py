"""From parser steps to data with places, collecting every flaw on the way."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, NoReturn

from recommender.ground.flaw import MOST_FLAWS, Flaw, flaw, too_many
from recommender.ground.place import Place, whole_file
from recommender.reading.document import Document, Path, Spot
from recommender.reading.scalars import RefusedScalar, Scalar, plain_value
from recommender.reading.steps import Step, made

DEEPEST = 30
MOST_STEPS = 50_000
VALUE_WANTED = "Write the value, or `null` if it is meant to be empty."
AFTER_COMMA = re.compile(r"\d+( ?[A-Za-z/%]+)?")
COMMA_MEANT = "Write a point instead of a decimal comma (`0.03`), or a value after the colon."


class Stopped(Exception):
    """Raised to stop reading when the nesting or the number of flaws passes its cap; the flaw is noted."""


@dataclass(slots=True)
class _Open:
    """A mapping or list that is not closed yet, with the key that waits for its value."""

    node: dict[str, Any] | list[Any]
    path: Path
    start: Place
    keyed: bool
    key: str | None = None
    key_place: Place | None = None


class TreeBuilder:
    """Builds the data of one file from its steps."""

    def __init__(self, file: str, text: str) -> None:
        """Start with nothing read."""
        self.file = file
        self.text = text
        self.flaws: list[Flaw] = []
        self.places: dict[Path, Spot] = {}
        self.root: Any = None
        self._open: list[_Open] = []
        self._unread_keys = 0
        self.taken = 0

    def take(self, steps: Iterable[Step]) -> None:
        """Add steps to the tree; raises Stopped when the nesting or the flaws pass their cap."""
        for step in steps:
            self.taken += 1
            if self.taken > MOST_STEPS:
                self._too_many(step)
            kind = step.kind
            if kind == "end":
                self._close(step)
                continue
            if step.mark or kind == "alias":
                self._refuse_marks(step)
            top = self._open[-1] if self._open else None
            if top is not None and top.key is None and top.keyed:
                self._take_key(step)
            elif kind == "scalar" or kind == "alias":
                self._put(self._value(step), step.place)
            else:
                self._start(step)

    def document(self) -> Document:
        """Return the document of what was read; meant for trees without flaws."""
        return Document(self.file, self.text, self.root, self.places)

    def note(self, check: str, place: Place, message: str, advice: str) -> None:
        """Keep a flaw."""
        self.flaws.append(flaw(f"yaml.{check}", place, self.text, message, advice))
        if len(self.flaws) >= MOST_FLAWS:
            self.flaws.append(too_many(self.file))
            raise Stopped

    def _too_many(self, step: Step) -> NoReturn:
        self.note(
            "too-many",
            step.place,
            f"more than {MOST_STEPS} keys, values and brackets stand in this file",
            "Nothing read here is that long; is it the right file? Of a scan, keep every second or third point.",
        )
        raise Stopped

    def _awaits_key(self) -> bool:
        return bool(self._open) and self._open[-1].keyed and self._open[-1].key is None

    def _take_key(self, step: Step) -> None:
        top = self._open[-1]
        if step.kind in ("mapping", "list"):
            self.note("key", step.place, "a key must be a single word", "Write `word: value`.")
            self._start(step, as_key=True)
            return
        top.key, top.key_place = step.value, step.place
        if step.plain and step.value == "<<":
            self.note(
                "merge-key",
                step.place,
                "merge keys are not read here",
                "Write the keys out where they are used.",
            )
        elif not step.value and step.kind == "scalar":
            self.note("empty-key", step.place, "there is no key before the colon", "Write the key.")
        elif step.value in top.node:
            self._note_duplicate(step, self.places[(*top.path, step.value)].key)

    def _note_duplicate(self, step: Step, first: Place | None) -> None:
        seen = f" at {first.line}:{first.column}" if first else ""
        self.note(
            "duplicate-key",
            step.place,
            f"the key `{step.value}` stands here a second time; the first is{seen or ' above'}",
            f"Keep one of the two (lines {first.line if first else '?'} and {step.place.line}).",
        )

    def _start(self, step: Step, as_key: bool = False) -> None:
        node: dict[str, Any] | list[Any] = {} if step.kind == "mapping" else []
        path = (f"?{self._unread_keys}",) if as_key else self._put(node, step.place)
        self._unread_keys += as_key
        self._open.append(_Open(node, path, step.place, step.kind == "mapping"))
        if len(self._open) > DEEPEST:
            self.note(
                "depth",
                step.place,
                f"nested more than {DEEPEST} levels deep",
                "Nothing read here is nested that deeply; look for a bracket that is never closed.",
            )
            raise Stopped

    def _close(self, step: Step) -> None:
        done = self._open.pop()
        spot = self.places.get(done.path)
        if spot is not None:
            file, line, column, *_ = spot.value
            _, _, _, end_line, end_column = step.place
            self.places[done.path] = Spot(spot.key, Place(file, line, column, end_line, end_column))
        if self._awaits_key() and spot is None:
            self._open[-1].key, self._open[-1].key_place = done.path[0], done.start  # type: ignore[assignment]

    def _put(self, value: Any, place: Place) -> Path:
        if not self._open:
            self.root = value
            self.places[()] = Spot(None, place)
            return ()
        top = self._open[-1]
        if isinstance(top.node, list):
            path: Path = (*top.path, len(top.node))
            top.node.append(value)
        else:
            key = top.key or ""
            path = (*top.path, key)
            top.node.setdefault(key, value)
        self.places.setdefault(path, made(Spot, (top.key_place, place)))
        top.key = top.key_place = None
        return path

    def _value(self, step: Step) -> Scalar:
        if step.plain and not step.value:
            if not step.mark:
                self._note_empty(step)
        elif step.plain:
            try:
                return plain_value(step.value)
            except RefusedScalar as refused:
                self.note("scalar", step.place, *refused.refusal)
        return step.value

    def _note_empty(self, step: Step) -> None:
        top = self._open[-1] if self._open else None
        if top is None:
            self.flaws.append(empty(self.file))
            return
        if top.key_place is None:
            self.note("empty-value", step.place, "nothing after the dash", "Write the value, or remove the dash.")
            return
        advice = COMMA_MEANT if AFTER_COMMA.fullmatch(top.key or "") else VALUE_WANTED
        self.note("empty-value", top.key_place, f"`{top.key}` has nothing after the colon", advice)

    def _refuse_marks(self, step: Step) -> None:
        if step.kind == "alias":
            self.note("alias", step.place, f"`*{step.value}` is an alias", "Write the value out; or quote a text.")
        elif step.mark == "anchor":
            self.note("anchor", step.place, "an anchor (`&name`) is not read here", "Remove it; or quote a text.")
        elif step.mark == "tag":
            self.note("tag", step.place, "a tag (`!name`) is not read here", "Remove it; or quote a text.")


def empty(file: str) -> Flaw:
    """Return the flaw of a file in which nothing stands."""
    return Flaw("yaml.empty", whole_file(file), "nothing stands in this file", "Write `key: value` lines.")
