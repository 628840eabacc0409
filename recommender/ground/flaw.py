"""Something wrong with a file: never used for the frame."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, Literal

from recommender.ground.place import Place, excerpt, whole_file

Level = Literal["error", "warning", "note"]
MOST_FLAWS = 100


@dataclass(frozen=True, slots=True)
class Flaw:
    """One thing wrong with a file: which check found it, where, what it is and what to do about it."""

    check: str
    place: Place
    message: str
    advice: str
    level: Level = "error"
    shown: str = ""

    def sort_key(self) -> tuple[Place, str, str]:
        """Return the key that puts flaws in the order of their places."""
        return (self.place, self.check, self.message)

    def __str__(self) -> str:
        """Return the flaw as people read it: place and message, excerpt with caret, advice."""
        head = f"{self.place}: {self.level}: {self.message} [{self.check}]"
        return "\n".join(part for part in (head, self.shown, f"      {self.advice}") if part.strip())


def flaw(check: str, place: Place, text: str, message: str, advice: str, level: Level = "error") -> Flaw:
    """Return a flaw with the excerpt of `text` at its place."""
    return Flaw(check, place, message, advice, level, excerpt(text, place))


class Flawed(Exception):
    """Raised when a file cannot be used; carries every flaw found in it, sorted by place."""

    def __init__(self, flaws: Iterable[Flaw]) -> None:
        """Keep the flaws, each once, sorted by place."""
        self.flaws = tuple(sorted(set(flaws), key=Flaw.sort_key))
        super().__init__("\n".join(str(each) for each in self.flaws))

    def __reduce__(self) -> tuple[Any, ...]:
        """Return what makes it anew in another process."""
        return type(self), (self.flaws,)


def too_many(file: str) -> Flaw:
    """Return the flaw that closes the list of a file with more than MOST_FLAWS of them."""
    message = f"more than {MOST_FLAWS} flaws; the rest of the file was not looked at"
    return Flaw("file.many-flaws", whole_file(file), message, "Correct the first of them and try again.", "note")
