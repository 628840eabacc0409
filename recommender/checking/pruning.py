"""Takes flawed entries out of rule files, so that the rest can still be looked at."""

from collections.abc import Callable, Iterable
from typing import Any, TypeVar

from recommender.ground.flaw import Flaw, Flawed
from recommender.ground.place import Place
from recommender.reading.document import Document, Path

T = TypeVar("T")
OF_EXAMPLES = ("rules.example", "rules.example-missing")
# These say that something is missing; when we took it out ourselves they tell nothing new.
FOLLOW_UPS = (
    "rules.missing", "rules.seal-missing", "rules.silent-remedy", "rules.example-missing",
    "rules.unanswered-fact",
)


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
            before = set(self.flaws)
            try:
                return build(self.documents)
            except Flawed as found:
                self.keep(found.flaws)
                left = [each for each in found.flaws if each.check not in OF_EXAMPLES or each in before]
                if not self._prune(left) and before >= set(self.flaws):
                    return None
        return None

    @property
    def ran_examples(self) -> bool:
        """Return whether examples were run and some are told of already: they need not be run again."""
        return any(each.check in OF_EXAMPLES for each in self.flaws)

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
    """Return the document without what stands at these paths; everything else keeps its place in the file."""
    places = {_moved(path, paths): spot for path, spot in document.places.items() if not _inside(path, paths)}
    data = {name: each for name, each in _thinned(document.data, (), paths).items() if each}
    return Document(document.file, document.text, data, places)


def _thinned(node: Any, path: Path, paths: set[Path]) -> Any:
    if isinstance(node, dict):
        return {name: _thinned(each, (*path, name), paths) for name, each in node.items() if (*path, name) not in paths}
    if isinstance(node, list):
        return [_thinned(each, (*path, at), paths) for at, each in enumerate(node) if (*path, at) not in paths]
    return node


def _inside(path: Path, paths: set[Path]) -> bool:
    return any(path[:length] in paths for length in range(1, len(path) + 1))


def _moved(path: Path, paths: set[Path]) -> Path:
    """Return a path through lists from which items before it were taken."""
    return tuple(
        item - sum((*path[:depth], each) in paths for each in range(item)) if isinstance(item, int) else item
        for depth, item in enumerate(path)
    )


def _entry_at(document: Document, place: Place) -> Path | None:
    """Return the path of the example or entry that a place lies in, or of the section when it lies in neither."""
    start = (place.line, place.column)
    holding = [path for path, (key, value) in document.places.items() if _is_entry(path)
               and ((key or value).line, (key or value).column) <= start
               <= (value.end_line, value.end_column)]  # fmt: skip
    return max(holding, key=lambda path: (document.places[path].value[1:3], len(path)), default=None)


def _is_entry(path: Path) -> bool:
    return 1 <= len(path) <= 2 or (len(path) == 4 and path[0] in ("rules", "grids") and path[2] == "examples")


def _names(data: Any, path: Path) -> set[str]:
    node: Any = data
    for item in path:
        node = node[item] if item in node or isinstance(item, int) else {}
    own = {str(node["id"])} if isinstance(node, dict) and "id" in node else set()
    below = set(map(str, node)) if len(path) == 1 and isinstance(node, dict) else set()
    return own | below | {str(path[-1])}
