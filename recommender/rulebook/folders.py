"""Folders of rule files: where the shipped one is, and every YAML file in one, in a fixed order."""

from pathlib import Path

from recommender.ground.flaw import Flaw, Flawed
from recommender.ground.place import whole_file
from recommender.reading.document import Document
from recommender.reading.files import below
from recommender.reading.yaml_reader import read_file

PACKAGE = Path(__file__).resolve().parent.parent
NO_LINK = "Put the files themselves there, or name the other folder."


def shipped_folder() -> Path:
    """Return the folder of the shipped rules: inside the installed package, in a checkout beside it."""
    inside = PACKAGE / "rules"
    return inside if inside.is_dir() else PACKAGE.parent / "rules"


def read_folder(folder: Path) -> list[Document]:
    """Return every YAML file below a folder, sorted by name; raises Flawed with every flaw of every file.

    Files are shown by the folder's own name and what lies below it, wherever the folder itself is.
    """
    documents, flaws = read_what_can_be(folder)
    if flaws:
        raise Flawed(flaws)
    return documents


def read_what_can_be(folder: Path) -> tuple[list[Document], list[Flaw]]:
    """Return the YAML files below a folder that can be read, sorted by name, and the flaws of all others."""
    if not folder.is_dir():
        return [], [_flaw(str(folder), "there is no such folder", "Check the spelling of its name.")]
    name = folder.resolve().name
    documents: list[Document] = []
    flaws: list[Flaw] = []
    try:
        found = below(folder)
    except Flawed as refused:
        return [], list(refused.flaws)
    for path in found:
        shown = f"{name}/{path.relative_to(folder).as_posix()}"
        if path.is_dir():
            flaws.append(_flaw(shown, "this is a link to a folder, which would not be searched", NO_LINK))
        elif path.suffix.casefold() == ".yaml":
            try:
                documents.append(read_file(path, shown))
            except Flawed as refused:
                flaws += refused.flaws
        elif path.suffix.casefold() == ".yml" or (path.suffix.casefold() == ".json" and not _is_schema(path)):
            flaws.append(_flaw(shown, "this file would not be read", "Name it `.yaml`, or move it away."))
    if not documents and not flaws:
        flaws.append(_flaw(str(folder), "there is no rule file in this folder", "Add one, or name another folder."))
    return documents, flaws


def _is_schema(path: Path) -> bool:
    """Return whether a file is one of those that help editors to complete; no rule is read from it."""
    return path.name.endswith(".schema.json")


def _flaw(shown: str, message: str, advice: str) -> Flaw:
    return Flaw("file.folder", whole_file(shown), message, advice)
