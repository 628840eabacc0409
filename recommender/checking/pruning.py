"""Takes flawed entries out of rule files, so that the rest can still be looked at."""

from collections.abc import Callable, Iterable
from typing import Any, TypeVar

from recommender.ground.flaw import Flaw, Flawed
from recommender.ground.place import Place
from recommender.reading.document import Document, Path

T = TypeVar("T")
# These say that something is missing; when we took it out ourselves they tell nothing new.
FOLLOW_UPS = ("rules.missing", "rules.seal-missing", "rules.silent-remedy", "rules.example-missing")


class Settled:
    """What could be made of the files: the result, if any, every flaw on the way, and the names left out."""

    def __init__(self, documents: Iterable[Document]) -> None:
        """Begin with all files."""
        self.documents = tuple(documents)
        self.flaws: list[Flaw] = []
        self.dropped: set[str] = set()

    def make(self, build: Callable[[tuple[Document, ...]], T]) -> T | None:
        """Return what `build` makes of the files, leaving out what it complains of; None when nothing is left."""
        while self.documents:
            try:
                return build(self.documents)
            except Flawed as found:
                self.keep(found.flaws)
                if not self._prune(found.flaws):
                    return None
        return None

    def keep(self, flaws: Iterable[Flaw]) -> None:
        """Keep the flaws that do not merely follow from something left out."""
        self.flaws += [each for each in flaws if not (self.dropped and self._follows(each))]

    def _follows(self, flaw: Flaw) -> bool:
        return flaw.check in FOLLOW_UPS or any(f"`{name}`" in flaw.message for name in self.dropped)

    def _prune(self, flaws: Iterable[Flaw]) -> bool:
        kept: list[Document] = []
        for document in self.documents:
            paths = {path for each in flaws if each.level == "error" and each.place.file == document.file
                     for path in [_entry_at(document, each.place)] if path is not None}  # fmt: skip
            self.dropped |= {name for path in paths for name in _names(document.data, path)}
            kept.append(without(document, paths) if paths else document)
        left = tuple(each for each in kept if each.data)
        changed = left != self.documents
        self.documents = left
        return changed


def without(document: Document, paths: set[Path]) -> Document:
    """Return the document without the entries at these paths; everything else keeps its place in the file."""
    data = {section: _thinned(content, section, paths) for section, content in document.data.items()}
    kept = {section: content for section, content in data.items() if (section,) not in paths and content}
    places = {_moved(path, paths): spot for path, spot in document.places.items() if not _inside(path, paths)}
    return Document(document.file, document.text, kept, places)


def _thinned(content: Any, section: str, paths: set[Path]) -> Any:
    if isinstance(content, dict):
        return {name: each for name, each in content.items() if (section, name) not in paths}
    if isinstance(content, list):
        return [each for index, each in enumerate(content) if (section, index) not in paths]
    return content


def _inside(path: Path, paths: set[Path]) -> bool:
    return path[:1] in paths or path[:2] in paths


def _moved(path: Path, paths: set[Path]) -> Path:
    """Return a path in a list from which items before it were taken."""
    if len(path) < 2 or not isinstance(path[1], int):
        return path
    index = path[1]
    before = sum((path[0], each) in paths for each in range(index))
    return (path[0], index - before, *path[2:])


def _entry_at(document: Document, place: Place) -> Path | None:
    """Return the path of the entry that a place lies in, or of the section when it lies in none."""
    start = (place.line, place.column)
    holding = [path for path, (key, value) in document.places.items() if 1 <= len(path) <= 2
               and ((key or value).line, (key or value).column) <= start
               <= (value.end_line, value.end_column)]  # fmt: skip
    return max(holding, key=lambda path: (document.places[path].value[1:3], len(path)), default=None)


def _names(data: Any, path: Path) -> set[str]:
    node = data
    for item in path:
        node = node[item] if isinstance(node, list) or item in node else {}
    own = {str(node["id"])} if isinstance(node, dict) and "id" in node else set()
    below = set(map(str, node)) if len(path) == 1 and isinstance(node, dict) else set()
    return own | below | {str(path[-1])}
