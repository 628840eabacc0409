"""Words of a case that the rule book does not know are flaws of the case, at their place."""

from collections.abc import Iterable, Iterator

from recommender.bench.load import LoadedCase
from recommender.bench.readings import Path
from recommender.bench.words import KEY, remedies_named, words_used
from recommender.ground.flaw import Flaw, flaw
from recommender.ground.suggest import did_you_mean
from recommender.rulebook.book import Rulebook

FORMS = {
    True: ("gives points, not readings", "Write its points under `scan` or `points`, or name its kind rightly."),
    False: ("gives readings, not points", "Write them under `at`, `spans` or `loose`, or name its kind rightly."),
}
HOUSE = "house."


def word_flaws(loaded: LoadedCase, book: Rulebook) -> list[Flaw]:
    """Return a flaw for every word of the case that the book's lists do not hold."""
    found = [
        _unknown(loaded, used.path, used.word, used.list_name.replace("_", " "), known)
        for used in words_used(loaded.case)
        if used.word not in (known := known_words(book, used.list_name))
    ]
    remedies = [remedy.id for remedy in book.remedies]
    found += [
        _unknown(loaded, path, named, "remedies", remedies)
        for named, path in remedies_named(loaded.case)
        if named not in remedies
    ]
    return found + (list(_wrong_form(loaded, book)) if not found else [])


def _wrong_form(loaded: LoadedCase, book: Rulebook) -> Iterator[Flaw]:
    """Yield a flaw for every block whose instrument does not give what is written there."""
    for name, side in loaded.case.sides.items():
        for index, block in enumerate(side.readings):
            tool = loaded.case.bench.instrument(block.instrument)
            scans = tool is not None and book.instruments[tool.kind].sees == "points"
            if scans == (block.scan is not None or block.points is not None):
                continue
            place = loaded.document.place(("sides", name, "readings", index, "instrument"))
            what, advice = FORMS[scans]
            yield flaw("case.form", place, loaded.document.text, f"`{block.instrument}` {what}", advice)


def known_words(book: Rulebook, list_name: str) -> Iterable[str]:
    """Return the words of a list: standards, parts and instruments are what the book describes of them."""
    described = {"standards": book.standards, "parts": book.parts, "instruments": book.instruments}
    return described.get(list_name) or book.words.get(list_name, {})


def _unknown(loaded: LoadedCase, path: Path, word: str, list_name: str, known: Iterable[str]) -> Flaw:
    key = bool(path) and path[-1] == KEY
    place = loaded.document.place(path[:-1] if key else path, key=key)
    message = f"`{word}` is not a word the rule book knows under {list_name}"
    return flaw("case.unknown-word", place, loaded.document.text, message, _advice(word, known))


def _advice(word: str, known: Iterable[str]) -> str:
    listed = list(known)
    if word.startswith(HOUSE) and not any(each.startswith(HOUSE) for each in listed):
        return "It is an addition of a house: name the folder it stands in with `--house DIR`."
    return did_you_mean(word, listed)
