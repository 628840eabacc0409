"""What the checks look at: the book in force, the files behind it, and how to point at a place in them."""

from collections.abc import Mapping
from datetime import date
from functools import cached_property

from recommender.ground.flaw import Flaw, Level, flaw
from recommender.ground.place import Place
from recommender.reading.document import Document, Path
from recommender.rulebook.book import Rule, Rulebook


class Looked:
    """A book with its files; `whole` tells whether nothing was left out of it for a flaw of its own."""

    def __init__(self, book: Rulebook, documents: Mapping[str, Document], whole: bool, on: date | None) -> None:
        """Keep the book, its documents by name, and the day on which reviews are judged."""
        self.book, self.documents, self.whole, self.on = book, documents, whole, on

    @cached_property
    def _paths(self) -> Mapping[Place, Path]:
        return {spot.value: path for each in self.documents.values() for path, spot in each.places.items()}

    def path_of(self, place: Place) -> Path:
        """Return the path of what stands at a place: of an entry by its key, else by its value."""
        keys = self.documents[place.file].places
        by_key = (path for path, spot in keys.items() if place in (spot.key, spot.value))
        return next(by_key, self._paths.get(place, ()))

    def below(self, place: Place, *path: str | int, key: bool = False) -> Place:
        """Return where something stands under the list item whose value stands at `place`."""
        return self.documents[place.file].place((*self._paths[place], *path), key=key)

    def place_of(self, section: str, name: str, *path: str | int) -> Place:
        """Return where an entry of a section stands, or something below it."""
        document = next(each for each in self.documents.values() if (section, name) in each.places)
        return document.place((section, name, *path), key=not path)

    def review_of(self, place: Place) -> Place:
        """Return where the review date of the house change at `place` stands."""
        document = self.documents[place.file]
        found = (path for path, spot in document.places.items() if place in spot)
        start = next(found)
        return next((document.place((*start, *below)) for below in (("review_by",), ("added", "review_by"))
                     if (*start, *below) in document.places), place)  # fmt: skip

    def flaw(self, check: str, place: Place, message: str, advice: str, level: Level = "error") -> Flaw:
        """Return a flaw with its excerpt."""
        return flaw(f"rules.{check}", place, self.documents[place.file].text, message, advice, level)

    def id_of(self, rule: Rule) -> Place:
        """Return where the id of a rule stands."""
        return self.below(rule.place, "id")
