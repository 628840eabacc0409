"""What is done with one hostile input: read as a file is, and whatever comes of it looked at as a reader would."""

from collections.abc import Callable
from pathlib import Path

from recommender.bench.load import FlawedCase, case_in, load_case
from recommender.bench.scan_import import is_scan, scan_in
from recommender.bench.sheet_import import sheet_in
from recommender.ground.flaw import Flawed
from recommender.reading.files import read_text_file
from recommender.reading.yaml_reader import read_file, read_text

HERE = Path(__file__).parent
CORPUS = HERE / "corpus"
# What checks and models may each tell, and one line that there is more.
MOST_TOLD = 250


def reader(path: Path) -> bool:
    """Return whether a file is a document to the one YAML reader."""
    try:
        document = read_file(path)
    except Flawed as refused:
        looked_at(refused, path)
        return False
    assert isinstance(document.data, dict)
    assert all(spot.value.line >= 1 and spot.value.column >= 1 for spot in document.places.values())
    return True


def loader(path: Path) -> bool:
    """Return whether a file is a case; a case says the same when its text is read again."""
    try:
        loaded = load_case(path)
    except FlawedCase as refused:
        looked_at(refused, path)
        return False
    again = case_in(read_text(loaded.document.text, str(path)))
    assert again.case == loaded.case
    return True


def sheet(path: Path) -> bool:
    """Return whether a file is a bench sheet or a scan as CSV."""
    try:
        text = read_text_file(path)
        (scan_in if is_scan(text) else sheet_in)(text, str(path))
    except Flawed as refused:
        looked_at(refused, path)
        return False
    return True


def looked_at(refused: Flawed, path: Path) -> None:
    """Fail unless every flaw has a place in this file, says what is wrong and what to do."""
    assert refused.flaws
    assert all(isinstance(each, str) for each in getattr(refused, "signs", ()))
    assert len(refused.flaws) <= MOST_TOLD
    for each in refused.flaws:
        assert each.place.file == str(path)
        assert min(each.place[1:]) >= 1
        assert each.check
        assert each.message.strip()
        assert each.advice.strip()
    assert str(refused)


TARGETS: dict[str, Callable[[Path], bool]] = {"reader": reader, "loader": loader, "sheet": sheet}


def kept(target: str) -> list[bytes]:
    """Return the kept inputs of a target, the same order every time."""
    return [path.read_bytes() for path in sorted((CORPUS / target).iterdir())]
