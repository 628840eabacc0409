"""What a check of a case found, before it has a place in the file."""

from typing import NamedTuple

from recommender.bench.readings import Path
from recommender.bench.words import KEY
from recommender.ground.flaw import Flaw, Level, flaw
from recommender.reading.document import Document


class Trouble(NamedTuple):
    """One thing wrong in a case: which check found it, its path (ending in `[key]` for a key), what to do."""

    check: str
    path: Path
    message: str
    advice: str
    level: Level = "error"

    def at(self, document: Document) -> Flaw:
        """Return the flaw at its place in the document."""
        on_key = self.path[-1:] == (KEY,)
        place = document.place(self.path[:-1] if on_key else self.path, key=on_key)
        return flaw(self.check, place, document.text, self.message, self.advice, self.level)
