"""A file as data, together with the place of everything in it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from recommender.ground.place import Place

Path = tuple[str | int, ...]


class Spot(NamedTuple):
    """Where a key stands (None for list items and the whole document) and where its value stands."""

    key: Place | None
    value: Place


@dataclass(frozen=True, slots=True)
class Document:
    """One file: the name it is shown by, its text, its data (mappings with text keys) and its places."""

    file: str
    text: str
    data: dict[str, Any]
    places: Mapping[Path, Spot]

    def place(self, path: Sequence[str | int], key: bool = False) -> Place:
        """Return where the value at a path stands, or its key.

        A path that is not in the file gives the key, or else the value, of its nearest known ancestor.
        """
        wanted = tuple(path)
        known = wanted
        while known not in self.places:
            known = known[:-1]
        spot = self.places[known]
        return spot.value if spot.key is None or (known == wanted and not key) else spot.key
